//! Clauses: gates over truth values that may be known already, and a solver that says whether they can be met.

use batsat::callbacks::Callbacks;
use batsat::{Lit, Solver, SolverInterface, SolverOpts, lbool};
use rustc_hash::FxHashMap;

/// A value in the clauses: known while they were written, or open.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Bit {
    /// True or false, whatever is found.
    Known(bool),
    /// Still open.
    Open(Lit),
}

impl Bit {
    /// The opposite.
    #[must_use]
    #[expect(clippy::should_implement_trait, reason = "it stands among the gates, which are named as well")]
    pub fn not(self) -> Self {
        match self {
            Self::Known(value) => Self::Known(!value),
            Self::Open(lit) => Self::Open(!lit),
        }
    }

    /// This value where `holds`, else its opposite.
    #[must_use]
    pub fn when(self, holds: bool) -> Self {
        if holds { self } else { self.not() }
    }
}

/// How long the solver may search for all that one question takes: in restarts and in corrections of birds it found, so that the
/// same question gets the same answer on every machine.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Work(pub u32);

/// The search was given up before it was decided. Nothing follows from it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("not decided within the work allowed; nothing is claimed")]
pub struct OutOfBudget;

/// Counts restarts against what is allowed.
struct Allowed {
    left: u32,
}

impl Callbacks for Allowed {
    fn on_restart(&mut self) {
        self.left = self.left.saturating_sub(1);
    }

    fn stop(&self) -> bool {
        self.left == 0
    }
}

/// A set of clauses. Equal gates over equal values are one gate.
pub struct Clauses {
    solver: Solver<Allowed>,
    gates: FxHashMap<Vec<Lit>, Lit>,
    work: Work,
}

impl Clauses {
    /// No clauses yet.
    pub fn new(work: Work) -> Self {
        Self { solver: Solver::new(SolverOpts::default(), Allowed { left: work.0 }), gates: FxHashMap::default(), work }
    }

    /// Allows the whole work again, for a further question over the same clauses.
    pub fn allow_anew(&mut self) {
        self.solver.cb_mut().left = self.work.0;
    }

    /// Counts one correction against the work allowed.
    ///
    /// # Errors
    /// Where none is left.
    pub fn spend(&mut self) -> Result<(), OutOfBudget> {
        let left = &mut self.solver.cb_mut().left;
        *left = left.checked_sub(1).ok_or(OutOfBudget)?;
        Ok(())
    }

    /// A value nothing is said of.
    pub fn open(&mut self) -> Bit {
        Bit::Open(Lit::new(self.solver.new_var_default(), true))
    }

    /// Demands that at least one of these is true.
    pub fn require(&mut self, any: &[Bit]) {
        let mut clause = Vec::with_capacity(any.len());
        for bit in any {
            match bit {
                Bit::Known(true) => return,
                Bit::Known(false) => {}
                Bit::Open(lit) => clause.push(*lit),
            }
        }
        self.solver.add_clause_reuse(&mut clause);
    }

    /// Demands that exactly one of these is true.
    pub fn require_one_of(&mut self, bits: &[Bit]) {
        self.require(bits);
        for (at, one) in bits.iter().enumerate() {
            for other in bits.iter().skip(at + 1) {
                self.require(&[one.not(), other.not()]);
            }
        }
    }

    /// True where all of these are.
    pub fn all(&mut self, parts: &[Bit]) -> Bit {
        let mut open: Vec<Lit> = Vec::with_capacity(parts.len());
        for part in parts {
            match part {
                Bit::Known(false) => return Bit::Known(false),
                Bit::Known(true) => {}
                Bit::Open(lit) => open.push(*lit),
            }
        }
        open.sort_unstable();
        open.dedup();
        if open.iter().any(|lit| open.binary_search(&!*lit).is_ok()) {
            return Bit::Known(false);
        }
        match open.as_slice() {
            [] => Bit::Known(true),
            [only] => Bit::Open(*only),
            _ => Bit::Open(self.gate(open)),
        }
    }

    fn gate(&mut self, parts: Vec<Lit>) -> Lit {
        if let Some(known) = self.gates.get(&parts) {
            return *known;
        }
        let all = Lit::new(self.solver.new_var_default(), true);
        for part in &parts {
            self.solver.add_clause_reuse(&mut vec![!all, *part]);
        }
        let mut clause: Vec<Lit> = parts.iter().map(|part| !*part).collect();
        clause.push(all);
        self.solver.add_clause_reuse(&mut clause);
        self.gates.insert(parts, all);
        all
    }

    /// True where any of these is.
    pub fn any(&mut self, parts: &[Bit]) -> Bit {
        let opposite: Vec<Bit> = parts.iter().map(|part| part.not()).collect();
        self.all(&opposite).not()
    }

    /// True where at least `least` of these are, counted up part by part: at least n so far are where n were before, or where
    /// n - 1 were and this one is.
    pub fn at_least(&mut self, least: usize, parts: &[Bit]) -> Bit {
        let mut so_far = vec![Bit::Known(true)];
        so_far.resize(least + 1, Bit::Known(false));
        for part in parts {
            let before = so_far.clone();
            for (now, fewer) in so_far.iter_mut().skip(1).zip(before) {
                let with = self.all(&[*part, fewer]);
                *now = self.any(&[*now, with]);
            }
        }
        so_far.pop().unwrap_or(Bit::Known(true))
    }

    /// True where one of the two is and the other is not.
    pub fn differ(&mut self, one: Bit, other: Bit) -> Bit {
        if one == other {
            return Bit::Known(false);
        }
        let first = self.all(&[one, other.not()]);
        let second = self.all(&[one.not(), other]);
        self.any(&[first, second])
    }

    /// Whether the clauses can be met with all of these true.
    ///
    /// # Errors
    /// Where the work allowed does not suffice.
    pub fn can_be(&mut self, assumed: &[Bit]) -> Result<bool, OutOfBudget> {
        let mut lits = Vec::with_capacity(assumed.len());
        for bit in assumed {
            match bit {
                Bit::Known(true) => {}
                Bit::Known(false) => return Ok(false),
                Bit::Open(lit) => lits.push(*lit),
            }
        }
        let found = self.solver.solve_limited(&lits);
        if found == lbool::TRUE {
            Ok(true)
        } else if found == lbool::FALSE {
            Ok(false)
        } else {
            Err(OutOfBudget)
        }
    }

    /// The value of a bit in what [`Self::can_be`] found last.
    pub fn value(&self, bit: Bit) -> bool {
        match bit {
            Bit::Known(value) => value,
            Bit::Open(lit) => self.solver.value_lit(lit) == lbool::TRUE,
        }
    }
}
