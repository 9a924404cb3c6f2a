//! Elements that follow the line from move to move. Of each it is known what it says, so that one effect can have many of them
//! follow and the browser hears only of what changed.

use web_sys::{Element, Node};

/// Elements of a drawing.
const SVG: &str = "http://www.w3.org/2000/svg";

/// An element, with what was written to it.
pub(crate) struct Written {
    element: Element,
    attributes: Vec<(&'static str, String)>,
    words: Option<(Node, String)>,
}

impl Written {
    /// An element to which nothing was written yet.
    pub(crate) const fn of(element: Element) -> Self {
        Self {
            element,
            attributes: Vec::new(),
            words: None,
        }
    }

    /// Sets an attribute.
    pub(crate) fn set(&mut self, name: &'static str, value: &str) {
        let known = self.attributes.iter_mut().find(|known| known.0 == name);
        match known {
            Some((_, shown)) if shown == value => return,
            Some((_, shown)) => value.clone_into(shown),
            None => self.attributes.push((name, value.to_owned())),
        }
        // Refused only for a name that is none.
        let _ = self.element.set_attribute(name, value);
    }

    /// Sets what it says. Its text stays the same node: another one would be styled again.
    pub(crate) fn say(&mut self, words: &str) {
        if let Some((text, shown)) = &mut self.words {
            if shown != words {
                words.clone_into(shown);
                text.set_node_value(Some(words));
            }
            return;
        }
        self.element.set_text_content(Some(words));
        let text = self.element.first_child();
        self.words = text.map(|text| (text, words.to_owned()));
    }
}

/// A text as it should be.
pub(crate) struct Text<'a> {
    /// Where it stands, in pixels; `None` for one without room, which says nothing.
    pub(crate) at: Option<(f64, f64)>,
    /// Attributes of the group it stands in.
    pub(crate) attributes: Vec<(&'static str, &'a str)>,
    /// What it says.
    pub(crate) words: &'a str,
}

/// Texts side by side in a group of a drawing, kept in step with a list.
pub(crate) struct Texts {
    group: Element,
    shown: Vec<Shown>,
}

/// A text in a group of its own: moved by the group's transform it is not laid out again.
struct Shown {
    place: Written,
    text: Written,
}

impl Texts {
    /// In a group that has none yet.
    pub(crate) const fn of(group: Element) -> Self {
        Self {
            group,
            shown: Vec::new(),
        }
    }

    /// Shows these texts and no others.
    pub(crate) fn show<'a>(&mut self, wished: impl Iterator<Item = Text<'a>>) {
        let mut count = 0;
        for Text {
            at,
            attributes,
            words,
        } in wished
        {
            if count == self.shown.len() {
                let Some(text) = self.one_more() else {
                    return;
                };
                self.shown.push(text);
            }
            let Shown { place, text } = &mut self.shown[count];
            if let Some((x, y)) = at {
                place.set("transform", &format!("translate({x:.1} {y:.1})"));
            }
            for (name, value) in attributes {
                place.set(name, value);
            }
            text.say(words);
            count += 1;
        }
        for surplus in self.shown.drain(count..) {
            surplus.place.element.remove();
        }
    }

    /// A new text at the end of the group. None where the browser refuses.
    fn one_more(&self) -> Option<Shown> {
        let document = self.group.owner_document()?;
        let [place, text] = ["g", "text"].map(|name| document.create_element_ns(Some(SVG), name));
        let (place, text) = (place.ok()?, text.ok()?);
        place.append_child(&text).ok()?;
        self.group.append_child(&place).ok()?;
        Some(Shown {
            place: Written::of(place),
            text: Written::of(text),
        })
    }
}
