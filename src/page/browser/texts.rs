//! Texts side by side in a group of a drawing, kept in step with a list: of a list that changed a little, only that is written.

use web_sys::Element;

/// Elements of a drawing.
const SVG: &str = "http://www.w3.org/2000/svg";

/// A text as it should be.
#[derive(Clone, Copy)]
pub(crate) struct Text<'a> {
    /// Where it stands, in pixels from the left; `None` where there is no room for it.
    pub(crate) x: Option<f64>,
    /// What it says, or would say.
    pub(crate) words: &'a str,
}

/// The texts of a group, with what each of them shows.
#[derive(Default)]
pub(crate) struct Texts(Vec<Shown>);

struct Shown {
    element: Element,
    x: Option<String>,
    words: String,
}

impl Texts {
    /// Shows these texts in a group, always the same one. Each has its words as `data-value` too, for those without room.
    pub(crate) fn show<'a>(&mut self, group: &Element, wished: impl Iterator<Item = Text<'a>>) {
        let mut count = 0;
        for text in wished {
            if count == self.0.len() {
                let Some(shown) = Shown::in_group(group) else {
                    return;
                };
                self.0.push(shown);
            }
            self.0[count].show(text);
            count += 1;
        }
        for surplus in self.0.drain(count..) {
            surplus.element.remove();
        }
    }
}

impl Shown {
    /// A new one at the end of a group, which shows nothing yet. None where the browser refuses.
    fn in_group(group: &Element) -> Option<Self> {
        let element = group.owner_document()?.create_element_ns(Some(SVG), "text");
        let element = element.ok()?;
        group.append_child(&element).ok()?;
        Some(Self {
            element,
            x: None,
            words: String::new(),
        })
    }

    fn show(&mut self, text: Text<'_>) {
        // To a tenth of a pixel, as paths are: what moves by less is not written.
        let x = text.x.map(|x| format!("{x:.1}"));
        let is_other = self.words != text.words;
        if is_other {
            text.words.clone_into(&mut self.words);
            self.set("data-value", text.words);
        }
        if is_other || x.is_some() != self.x.is_some() {
            let said = x.as_ref().map(|_| text.words);
            self.element.set_text_content(said);
        }
        if x != self.x {
            if let Some(x) = &x {
                self.set("x", x);
            }
            self.x = x;
        }
    }

    fn set(&self, name: &str, value: &str) {
        // Refused only for a name that is none.
        let _ = self.element.set_attribute(name, value);
    }
}
