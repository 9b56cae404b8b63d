//! Scripted birds that cannot be hurt: lessons, exam questions and the project's own tests are the same files.

mod agreement;
mod answers;
mod check;
mod course;
mod debrief;
mod drawn;
mod flock;
mod mark;
mod pair;
mod scenario;
mod schedule;
mod shipped_birds;
mod shown;
mod trial;

pub use agreement::{Kappa, Share, Table, Triage, Weighing, triage};
pub use answers::{NoBird, Scored, bird, score};
pub use check::{Script, check};
pub use course::{Course, stretches};
pub use debrief::{Advice, Debrief, Late, Reading, Seen, debrief};
pub use drawn::{DrawError, Drawn, DrawnTexts, Tells, Wanted, draw};
pub use flock::{FLOCK, flock};
pub use mark::{Mark, Rungs3, marks};
pub use pair::{Alike, Compared, Pair, compare};
pub use scenario::{Expect, Grade, Lesson, Rungs, Scenario, Teaching, Turn, When, read, without_vet};
pub use schedule::{Card, Due, due};
pub use shipped_birds::{lessons, shipped};
pub use trial::{Deed, Given, Shows, Trial};
