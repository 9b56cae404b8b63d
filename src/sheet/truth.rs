//! Three-valued truth after Kleene: no, open, yes.

/// How far a condition is decided. The order is no < open < yes, so that "and" is the least and "or" the greatest.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Truth {
    /// Decided: it does not hold, whatever is answered next.
    No,
    /// Not decided yet.
    Open,
    /// Decided: it holds, whatever is answered next.
    Yes,
}

impl Truth {
    /// Yes or no.
    #[inline]
    pub const fn from(holds: bool) -> Self {
        if holds { Self::Yes } else { Self::No }
    }

    /// The opposite; open stays open.
    #[must_use]
    #[inline]
    pub const fn not(self) -> Self {
        match self {
            Self::No => Self::Yes,
            Self::Open => Self::Open,
            Self::Yes => Self::No,
        }
    }

    /// All of these hold; the first that does not decides.
    #[inline]
    pub fn all(parts: impl IntoIterator<Item = Self>) -> Self {
        let mut all = Self::Yes;
        for part in parts {
            all = all.min(part);
            if all == Self::No {
                break;
            }
        }
        all
    }

    /// Any of these holds; the first that does decides.
    #[inline]
    pub fn any(parts: impl IntoIterator<Item = Self>) -> Self {
        let mut any = Self::No;
        for part in parts {
            any = any.max(part);
            if any == Self::Yes {
                break;
            }
        }
        any
    }

    /// At least `needed` of these hold.
    pub fn count(needed: usize, parts: impl Iterator<Item = Self>) -> Self {
        let (mut yes, mut open) = (0, 0);
        for part in parts {
            match part {
                Self::No => {}
                Self::Open => open += 1,
                Self::Yes => yes += 1,
            }
        }
        if yes >= needed {
            Self::Yes
        } else if yes + open >= needed {
            Self::Open
        } else {
            Self::No
        }
    }
}
