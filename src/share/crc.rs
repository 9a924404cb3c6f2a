//! The checksum of links and kept states: CRC-32 as of ISO/IEC 8802-3 and of gzip (RFC 1952, section 8). With a table of 1 kB;
//! libraries that are faster bring 16 kB of numbers, which no web server can pack any smaller.

/// The polynomial, its bits turned round (RFC 1952, section 8).
const POLYNOMIAL: u32 = 0xEDB8_8320;

/// What every byte does to the sum.
const TABLE: [u32; 256] = table();

/// The checksum of these bytes, one piece after the other.
pub(crate) fn crc32(pieces: &[&[u8]]) -> u32 {
    let bytes = pieces.iter().copied().flatten();
    !bytes.fold(!0, |sum, &byte| {
        let [lowest, ..] = sum.to_le_bytes();
        TABLE[usize::from(lowest ^ byte)] ^ (sum >> 8)
    })
}

const fn table() -> [u32; 256] {
    let mut table = [0; 256];
    let mut byte = 0;
    while byte < 256 {
        table[byte as usize] = after_eight_bits(byte);
        byte += 1;
    }
    table
}

const fn after_eight_bits(mut sum: u32) -> u32 {
    let mut bit = 0;
    while bit < 8 {
        sum = (sum >> 1) ^ (POLYNOMIAL * (sum & 1));
        bit += 1;
    }
    sum
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// The check value of CRC-32/ISO-HDLC in the catalogue of parametrised CRC algorithms, from memory.
    #[test]
    fn the_check_value_comes_out() {
        assert_eq!(crc32(&[b"123456789"]), 0xCBF4_3926);
        assert_eq!(crc32(&[b"1234", b"", b"56789"]), 0xCBF4_3926);
        assert_eq!(crc32(&[]), 0);
    }

    proptest! {
        /// Against an independent library.
        #[test]
        fn another_library_agrees(bytes: Vec<u8>) {
            prop_assert_eq!(crc32(&[&bytes]), crc32fast::hash(&bytes));
        }
    }
}
