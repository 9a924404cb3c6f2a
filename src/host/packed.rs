//! Packed copies of the site's files, for visitors whose browsers read them: `name.br` (Brotli, RFC 7932) and `name.gz` (gzip,
//! RFC 1952) beside `name`. Packing once, at the build, can take longer than a server would, and so packs best.

use std::fs;
use std::io::{Result, Write};
use std::num::NonZeroU64;
use std::path::Path;
use zopfli::{Format, Options};

/// Endings of packed copies.
pub(crate) const ENDINGS: [&str; 2] = ["br", "gz"];
/// Endings of the files that become smaller; pictures are packed by nature.
const PACKED: [&str; 7] = ["css", "html", "js", "json", "svg", "wasm", "webmanifest"];
/// The highest level, and a window that holds the whole program. Source: RFC 7932, section 9.1.
const BROTLI: (u32, u32) = (11, 24);
const BUFFER: usize = 1 << 16;
/// How often gzip's codes are chosen again by what they came to. More gain next to nothing.
const GZIP_ROUNDS: NonZeroU64 = NonZeroU64::new(5).unwrap();

/// Leaves packed copies of all files in the folder that become smaller.
///
/// # Errors
/// When the folder cannot be read or written.
pub(crate) fn leave(dist: &Path) -> Result<()> {
    for entry in fs::read_dir(dist)? {
        let file = entry?.path();
        let ending = file.extension().and_then(|ending| ending.to_str());
        if let Some(ending) = ending.filter(|ending| becomes_smaller(ending)) {
            let content = fs::read(&file)?;
            fs::write(
                file.with_extension(format!("{ending}.br")),
                brotli(&content)?,
            )?;
            fs::write(file.with_extension(format!("{ending}.gz")), gzip(&content)?)?;
        }
    }
    Ok(())
}

/// Whether files with this ending become smaller.
pub(crate) fn becomes_smaller(ending: &str) -> bool {
    PACKED.contains(&ending)
}

fn brotli(content: &[u8]) -> Result<Vec<u8>> {
    let mut packer = brotli::CompressorWriter::new(Vec::new(), BUFFER, BROTLI.0, BROTLI.1);
    packer.write_all(content)?;
    packer.flush()?;
    Ok(packer.into_inner())
}

fn gzip(content: &[u8]) -> Result<Vec<u8>> {
    let mut packed = Vec::new();
    let options = Options {
        iteration_count: GZIP_ROUNDS,
        ..Options::default()
    };
    zopfli::compress(options, Format::Gzip, content, &mut packed)?;
    Ok(packed)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::io::Read;

    #[test]
    fn texts_get_copies_that_unpack_to_them_and_pictures_get_none() {
        let folder = tempfile::tempdir().unwrap();
        let text = "a line, a line, a line ".repeat(1000);
        fs::write(folder.path().join("a-0123456789abcdef.js"), &text).unwrap();
        fs::write(folder.path().join("b.png"), &text).unwrap();
        leave(folder.path()).unwrap();

        let read = |name: &str| fs::read(folder.path().join(name)).unwrap();
        let (br, gz) = (
            read("a-0123456789abcdef.js.br"),
            read("a-0123456789abcdef.js.gz"),
        );
        assert!(br.len() < gz.len() && gz.len() < text.len());
        let mut unpacked = [String::new(), String::new()];
        brotli::Decompressor::new(br.as_slice(), BUFFER)
            .read_to_string(&mut unpacked[0])
            .unwrap();
        flate2::read::GzDecoder::new(gz.as_slice())
            .read_to_string(&mut unpacked[1])
            .unwrap();
        assert_eq!(unpacked, [text.clone(), text]);
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 4);
    }
}
