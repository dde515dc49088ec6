//! What would happen, in words for the screen.

use super::{JobPreview, Preview, Products};
use crate::share::tally::counted;

impl Preview {
    /// A sentence for each thing there is to say; the first one says what is new.
    ///
    /// ```
    /// use coatwalk::share::merge::Preview;
    /// let nothing = Preview { same: 40, ..Preview::default() };
    /// assert_eq!(nothing.words(), ["Nothing new.", "40 entries are here already."]);
    /// ```
    pub fn words(&self) -> Vec<String> {
        let mut said = vec![match (self.new.len(), self.media_new.len()) {
            (0, 0) => "Nothing new.".into(),
            (0, photos) => counted(photos, "new photo.", "new photos."),
            (entries, 0) => counted(entries, "new entry.", "new entries."),
            (entries, photos) => format!(
                "{} and {}",
                counted(entries, "new entry", "new entries"),
                counted(photos, "new photo.", "new photos.")
            ),
        }];
        let mut say = |n: usize, one: &str, many: &str| {
            if n > 0 {
                said.push(counted(n, one, many));
            }
        };
        say(self.same, "entry is here already.", "entries are here already.");
        say(
            self.differs.len(),
            "entry is here with another content: the one here stays.",
            "entries are here with another content: those here stay.",
        );
        say(
            self.not_understood.len(),
            "new entry is of a kind this app does not know yet: it is kept for an app that does.",
            "new entries are of a kind this app does not know yet: they are kept for an app that does.",
        );
        say(self.unreadable.len(), "line can't be read: it stays out.", "lines can't be read: they stay out.");
        say(
            self.media_missing.len(),
            "photo or voice note is neither here nor in the file.",
            "photos or voice notes are neither here nor in the file.",
        );
        say(
            self.media_stray.len(),
            "photo or voice note belongs to no entry: it stays out.",
            "photos or voice notes belong to no entry: they stay out.",
        );
        said
    }
}

impl JobPreview {
    /// What would happen to it, in a few words.
    pub fn words(&self) -> String {
        match (self.here, self.new) {
            (false, n) => format!("not on this phone yet, {}", counted(n, "entry", "entries")),
            (true, 0) => "here already, nothing new".into(),
            (true, n) => format!("here already, {}", counted(n, "new entry", "new entries")),
        }
    }
}

impl Products {
    /// A sentence for each thing there is to say.
    pub fn words(&self) -> Vec<String> {
        let mut said = Vec::new();
        let mut say = |n: usize, one: &str, many: &str| {
            if n > 0 {
                said.push(counted(n, one, many));
            }
        };
        say(self.new.len(), "new product for the shelf.", "new products for the shelf.");
        say(self.same, "product is on the shelf already.", "products are on the shelf already.");
        say(
            self.differs.len(),
            "product is on the shelf with other figures: those here stay.",
            "products are on the shelf with other figures: those here stay.",
        );
        say(self.unreadable.len(), "product can't be read: it stays out.", "products can't be read: they stay out.");
        said
    }
}
