//! The sum by which links and kept files tell whether they came whole: CRC-32 as in ISO/IEC/IEEE 8802-3, PNG and ZIP.

use crc::{CRC_32_ISO_HDLC, Crc};

/// One table of 1 kB: larger ones calculate several bytes at once, and every visitor would load them.
static CRC: Crc<u32> = Crc::<u32>::new(&CRC_32_ISO_HDLC);

/// The checksum of bytes that come in parts, as if they came as one.
pub(crate) fn checksum(parts: &[&[u8]]) -> u32 {
    let mut digest = CRC.digest();
    for part in parts {
        digest.update(part);
    }
    digest.finalize()
}

#[cfg(test)]
mod tests {
    use super::*;

    // The doors' own tests make links by another library.
    #[test]
    fn it_is_that_of_the_catalogue() {
        // The check value of CRC-32/ISO-HDLC: Greg Cook's catalogue of parametrised CRC algorithms.
        assert_eq!(checksum(&[b"123456789"]), 0xcbf4_3926);
        assert_eq!(checksum(&[b"1234", b"56789"]), 0xcbf4_3926);
        assert_eq!(checksum(&[]), 0);
    }
}
