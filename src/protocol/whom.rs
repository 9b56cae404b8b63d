//! Whom one phones about a bird.

use serde::{Deserialize, Serialize};

/// Somebody to phone. Who that is, and under which number, only the keeper knows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Deserialize, Serialize)]
pub enum Whom {
    /// The keeper's own vet.
    Vet,
    /// A vet who answers at any hour.
    EmergencyVet,
    /// The animal-health authority.
    Authority,
}

impl Whom {
    /// Everybody, in the order they are asked for.
    pub const ALL: [Self; 3] = [Self::Vet, Self::EmergencyVet, Self::Authority];

    /// The name that stands for them in files and commands.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Vet => "vet",
            Self::EmergencyVet => "emergency_vet",
            Self::Authority => "authority",
        }
    }
}
