//! An order of texts in which those that share passages stand near each other. gzip looks back 32 kB, no further: what was
//! said longer ago than that is spelt out anew. So the same texts pack smaller when their likenesses are neighbours.

use std::collections::{HashMap, VecDeque};

/// Bytes of a passage. Shorter ones are shared by chance, longer ones miss likenesses. Tried: 4, 5, 6, 8, 10.
const PASSAGE: usize = 6;
/// How many bytes back a likeness counts. Tried: 12,000 to 30,000; gzip's own tables take some of its 32,768.
const WINDOW: usize = 24_000;
/// A passage in more texts than this is everywhere and tells nothing. Tried: 500 to 5,000.
const COMMON: usize = 500;
/// Keeps the shortest texts from being taken for the likest only because there is so little of them, in bytes.
const SHORT: u64 = 8;

/// The texts' numbers in an order that packs well. The first text stays first, every text comes once, and the same texts
/// always come in the same order.
pub(crate) fn order(texts: &[&[u8]]) -> Vec<usize> {
    let mut left: Vec<usize> = (0..texts.len()).collect();
    let mut likeness = Likeness::of(texts);
    let mut order = Vec::with_capacity(texts.len());
    while let Some(place) = likeness.likest(&left) {
        // Takes the order of the rest as it was, so that equals come as they came.
        let text = left.remove(place);
        likeness.pass(text);
        order.push(text);
    }
    order
}

/// What the texts have in common with those that came last.
struct Likeness {
    lengths: Vec<u64>,
    /// Of every text, the passages that others hold too.
    passages: Vec<Vec<usize>>,
    /// Of every passage, the texts that hold it.
    holders: Vec<Vec<usize>>,
    /// Of every passage, how many texts within the window hold it.
    seen: Vec<u32>,
    /// Of every text, how many of its passages stand within the window.
    known: Vec<u64>,
    window: VecDeque<usize>,
    window_length: u64,
}

impl Likeness {
    fn of(texts: &[&[u8]]) -> Self {
        let holders = holders(texts);
        let mut passages = vec![Vec::new(); texts.len()];
        for (passage, texts) in holders.iter().enumerate() {
            for &text in texts {
                passages[text].push(passage);
            }
        }
        Self {
            lengths: texts.iter().map(|text| text.len() as u64).collect(),
            seen: vec![0; holders.len()],
            known: vec![0; texts.len()],
            passages,
            holders,
            window: VecDeque::new(),
            window_length: 0,
        }
    }

    /// The place among the texts `left` of the one with most in common for its length. Nothing when none is left.
    fn likest(&self, left: &[usize]) -> Option<usize> {
        let mut best: Option<(usize, u64, u64)> = None;
        for (place, &text) in left.iter().enumerate() {
            let known = self.known[text] * self.known[text];
            let length = self.lengths[text] + SHORT;
            // The share by the root of the length, squared: a long text is not held back for its length alone.
            if best.is_none_or(|(_, most, its_length)| known * its_length > most * length) {
                best = Some((place, known, length));
            }
        }
        best.map(|(place, ..)| place)
    }

    /// Puts a text into the window, and what that pushes out of it out.
    fn pass(&mut self, text: usize) {
        self.window.push_back(text);
        self.window_length += self.lengths[text];
        for &passage in &self.passages[text] {
            self.seen[passage] += 1;
            if self.seen[passage] == 1 {
                self.holders[passage]
                    .iter()
                    .for_each(|&holder| self.known[holder] += 1);
            }
        }
        while self.window_length > WINDOW as u64 && self.window.len() > 1 {
            self.forget_first();
        }
    }

    fn forget_first(&mut self) {
        let Some(text) = self.window.pop_front() else {
            return;
        };
        self.window_length -= self.lengths[text];
        for &passage in &self.passages[text] {
            self.seen[passage] -= 1;
            if self.seen[passage] == 0 {
                self.holders[passage]
                    .iter()
                    .for_each(|&holder| self.known[holder] -= 1);
            }
        }
    }
}

/// For every passage that some texts share, and not too many, these texts in rising order.
fn holders(texts: &[&[u8]]) -> Vec<Vec<usize>> {
    let mut numbers: HashMap<&[u8], usize> = HashMap::new();
    let mut holders: Vec<Vec<usize>> = Vec::new();
    for (text, content) in texts.iter().enumerate() {
        for passage in content.windows(PASSAGE) {
            let number = *numbers.entry(passage).or_insert(holders.len());
            match holders.get_mut(number) {
                Some(texts) if texts.last() == Some(&text) => {}
                Some(texts) => texts.push(text),
                None => holders.push(vec![text]),
            }
        }
    }
    holders.retain(|texts| (2..=COMMON).contains(&texts.len()));
    holders
}

#[cfg(test)]
mod tests {
    use super::*;
    use flate2::{Compression, write::GzEncoder};
    use proptest::prelude::*;
    use std::io::Write;

    fn packed(texts: &[&[u8]], order: impl IntoIterator<Item = usize>) -> usize {
        let mut packer = GzEncoder::new(Vec::new(), Compression::best());
        for text in order {
            packer.write_all(texts[text]).unwrap();
        }
        packer.finish().unwrap().len()
    }

    /// Bytes without a pattern, by a linear congruential generator.
    fn noise(seed: u32, length: usize) -> Vec<u8> {
        let next = |state: &u32| Some(state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223));
        let states = std::iter::successors(Some(seed), next);
        states
            .map(|state| state.to_be_bytes()[0])
            .take(length)
            .collect()
    }

    #[test]
    fn likenesses_out_of_reach_of_each_other_are_brought_together() {
        let kinds: Vec<Vec<u8>> = (0..80).map(|kind| noise(kind, 1_000)).collect();
        let texts: Vec<&[u8]> = kinds.iter().chain(&kinds).map(Vec::as_slice).collect();
        let (before, after) = (packed(&texts, 0..160), packed(&texts, order(&texts)));
        assert!(after * 10 < before * 6, "{before} → {after}");
    }

    #[test]
    fn texts_with_nothing_in_common_stay_where_they_are() {
        let texts: [&[u8]; 4] = [b"", b"ab", b"abcdefghij", b"0123456789"];
        assert_eq!(order(&texts), [0, 1, 2, 3]);
        assert!(order(&[]).is_empty());
    }

    proptest! {
        #[test]
        fn every_text_comes_once(texts in prop::collection::vec(prop::collection::vec(0_u8..3, 0..40), 0..40)) {
            let texts: Vec<&[u8]> = texts.iter().map(Vec::as_slice).collect();
            let mut order = order(&texts);
            order.sort_unstable();
            prop_assert_eq!(order, (0..texts.len()).collect::<Vec<_>>());
        }
    }
}
