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
    pub const fn from(holds: bool) -> Self {
        if holds { Self::Yes } else { Self::No }
    }

    /// The opposite; open stays open.
    #[must_use]
    pub const fn not(self) -> Self {
        match self {
            Self::No => Self::Yes,
            Self::Open => Self::Open,
            Self::Yes => Self::No,
        }
    }

    /// All of these hold; the first that does not decides.
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

#[cfg(test)]
mod tests {
    use super::Truth::{self, No, Open, Yes};

    /// Kleene's strong three-valued tables (Kleene, Introduction to Metamathematics, 1952, section 64; from memory).
    #[test]
    fn the_tables_are_those_of_kleene() {
        for (one, other, and, or) in [
            (Yes, Yes, Yes, Yes),
            (Yes, Open, Open, Yes),
            (Yes, No, No, Yes),
            (Open, Open, Open, Open),
            (Open, No, No, Open),
            (No, No, No, No),
        ] {
            assert_eq!((one.min(other), one.max(other)), (and, or));
            assert_eq!((Truth::all([one, other]), Truth::any([other, one])), (and, or));
        }
        assert_eq!([Yes, Open, No].map(Truth::not), [No, Open, Yes]);
    }

    #[test]
    fn counting_stays_open_only_while_it_can_still_go_either_way() {
        assert_eq!(Truth::count(2, [Yes, Yes, Open].into_iter()), Yes);
        assert_eq!(Truth::count(2, [Yes, Open, No].into_iter()), Open);
        assert_eq!(Truth::count(2, [Yes, No, No].into_iter()), No);
    }
}
