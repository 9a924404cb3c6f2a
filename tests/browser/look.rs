//! The looks of the page, as a reader may have it.

use serde_json::json;

use super::page::Page;

/// What the colours of the page come from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Look {
    /// The device is set to light, and no look is chosen.
    Light,
    /// The device is set to dark, and no look is chosen.
    Dark,
    /// The look for a bright workshop is chosen.
    Bright,
}

/// Chooses a look for the open page as the page itself does, by an attribute; an empty one is none.
const CHOOSE: &str = "
    const [look] = arguments;
    if (look) document.documentElement.dataset.look = look;
    else delete document.documentElement.dataset.look;";

impl Look {
    /// Its word in names of pictures.
    pub(super) fn word(self) -> &'static str {
        match self {
            Self::Light => "light",
            Self::Dark => "dark",
            Self::Bright => "bright",
        }
    }

    /// Sets device and page to it, and waits until the page is drawn so.
    pub(super) async fn set(self, page: &Page) {
        let (scheme, chosen) = match self {
            Self::Light => ("light", ""),
            Self::Dark => ("dark", ""),
            Self::Bright => ("light", "bright"),
        };
        let feature = json!({"name": "prefers-color-scheme", "value": scheme});
        let media = json!({"features": [feature]});
        page.session.cdp("Emulation.setEmulatedMedia", &media);
        page.run(CHOOSE, vec![json!(chosen)]).await;
        page.until_drawn().await;
    }
}
