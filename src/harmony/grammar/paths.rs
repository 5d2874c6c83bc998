//! Paths of every short length between home and the fillers.

/// Cells before or after a device beyond which a path is always found.
pub(super) const FAR: usize = 12;

/// Sets of fillers, one bit each; home is the first.
pub(super) type Fillers = u64;

/// Where paths of every short length lead.
pub(super) struct Paths {
    /// `from_home[k]`: fillers reached from home in k steps.
    pub(super) from_home: Vec<Fillers>,
    /// `to_home[k]`: fillers from which home is reached in k steps.
    pub(super) to_home: Vec<Fillers>,
}

impl Paths {
    pub(super) const NONE: Self = Self {
        from_home: Vec::new(),
        to_home: Vec::new(),
    };

    /// Among so many fillers, of which the first `leads` to the second.
    pub(super) fn new(fillers: usize, leads: impl Fn(usize, usize) -> bool) -> Self {
        let step = |set: Fillers, onward: bool| {
            let mut next = 0;
            for from in 0..fillers {
                for to in 0..fillers {
                    let (known, new) = if onward { (from, to) } else { (to, from) };
                    if set & 1 << known != 0 && leads(from, to) {
                        next |= 1 << new;
                    }
                }
            }
            next
        };
        let (mut from_home, mut to_home) = (vec![1], vec![1]);
        for k in 0..FAR {
            from_home.push(step(from_home[k], true));
            to_home.push(step(to_home[k], false));
        }
        Self { from_home, to_home }
    }
}
