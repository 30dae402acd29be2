//! Samples to the bytes of a WAV file: RIFF, one channel, 16-bit linear PCM ("Multimedia Programming Interface and Data
//! Specifications 1.0", IBM and Microsoft, 1991). Reading is left to the decoder library.

/// A whole file, 44 bytes of header and the samples. `rate_hz` is samples per second.
#[must_use]
pub fn write_wav(samples: &[i16], rate_hz: u32) -> Vec<u8> {
    const BYTES_PER_SAMPLE: u16 = 2;
    let data: Vec<u8> = samples.iter().flat_map(|sample| sample.to_le_bytes()).collect();
    let data_bytes = u32::try_from(data.len()).unwrap_or(u32::MAX);

    let mut file = Vec::with_capacity(data.len().saturating_add(44));
    file.extend_from_slice(b"RIFF");
    file.extend_from_slice(&data_bytes.saturating_add(36).to_le_bytes());
    file.extend_from_slice(b"WAVEfmt ");
    file.extend_from_slice(&16_u32.to_le_bytes());
    file.extend_from_slice(&1_u16.to_le_bytes()); // linear PCM
    file.extend_from_slice(&1_u16.to_le_bytes()); // one channel
    file.extend_from_slice(&rate_hz.to_le_bytes());
    file.extend_from_slice(&rate_hz.saturating_mul(u32::from(BYTES_PER_SAMPLE)).to_le_bytes());
    file.extend_from_slice(&BYTES_PER_SAMPLE.to_le_bytes());
    file.extend_from_slice(&16_u16.to_le_bytes()); // bits in a sample
    file.extend_from_slice(b"data");
    file.extend_from_slice(&data_bytes.to_le_bytes());
    file.extend_from_slice(&data);
    file
}
