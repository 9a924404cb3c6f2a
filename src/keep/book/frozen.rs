//! A design as it once was, kept as the code its link carries.
//!
//! The code is kept to the letter even where this version cannot read it: a book written by a newer one, or damaged on its
//! way, loses nothing by being opened here.

use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::design::Design;
use crate::keep::share::link::{self, LinkError};

/// A design kept for good.
#[derive(Clone, Debug, PartialEq)]
pub struct Frozen {
    /// The code; `None` where it is the very one the design makes, so that a book of long lines does not hold them twice.
    code: Option<String>,
    design: Result<Box<Design>, LinkError>,
}

/// Why every design has a code.
const FITS: &str = "a design's lists and texts have limits far below what the code can count";

impl Frozen {
    /// Keeps a design.
    pub fn of(design: &Design) -> Self {
        Self {
            code: None,
            design: Ok(Box::new(design.clone())),
        }
    }

    /// The design.
    ///
    /// # Errors
    /// [`LinkError`] when this version cannot read what was kept.
    pub fn design(&self) -> Result<&Design, &LinkError> {
        self.design.as_deref()
    }
}

impl Serialize for Frozen {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match (&self.code, &self.design) {
            (None, Ok(design)) => serializer.serialize_str(&link::pack(design).expect(FITS)),
            (code, _) => serializer.serialize_str(code.as_deref().unwrap_or_default()),
        }
    }
}

impl<'de> Deserialize<'de> for Frozen {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        use serde::de::Error as _;
        let code = String::deserialize(deserializer)?;
        if code.len() > link::LONGEST_CODE {
            return Err(D::Error::custom(
                "a line in it is longer than any saved here",
            ));
        }
        let design = link::unpack(&code).map(Box::new);
        let made = design.as_ref().ok().map(|design| link::pack(design));
        let is_made = matches!(made, Some(Ok(made)) if made == code);
        Ok(Self {
            code: (!is_made).then_some(code),
            design,
        })
    }
}

/// A design that must be readable, as its code. For `#[serde(with = "…")]`.
pub(super) mod whole {
    use serde::{Deserialize, Deserializer, Serialize, Serializer, de::Error as _};

    use super::Frozen;
    use crate::design::Design;
    use crate::keep::share::link::LinkError;

    pub(in crate::keep::book) fn serialize<S: Serializer>(
        design: &Design,
        serializer: S,
    ) -> Result<S::Ok, S::Error> {
        Frozen::of(design).serialize(serializer)
    }

    pub(in crate::keep::book) fn deserialize<'de, D: Deserializer<'de>>(
        deserializer: D,
    ) -> Result<Design, D::Error> {
        let frozen = Frozen::deserialize(deserializer)?;
        frozen.design.map(|design| *design).map_err(|error| {
            D::Error::custom(match error {
                LinkError::CutOff => "the line it began with was cut off".to_owned(),
                LinkError::Newer(version) => format!(
                    "the line it began with has format {version}; reload the page to get the newest version"
                ),
                _ => "the line it began with cannot be read".to_owned(),
            })
        })
    }
}
