#![no_main]
//! Keys of a handheld session, on the smallest and the largest screen.

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    if bytes.len() > 2_000 {
        return;
    }
    for (columns, lines) in [(16, 2), (40, 8)] {
        let settings = shophead_handheld::Settings::new(columns, lines).expect("a size").with_echo();
        let mut shown = Shown(Vec::new());
        let _ = shophead_handheld::run(bytes, &mut shown, settings);
        // A terminal of one font: letters, line ends, and the step back that echoes a rubout.
        assert!(shown.0.iter().all(|byte| matches!(byte, b' '..=b'~' | b'\n' | b'\r' | 8)), "{:?}", String::from_utf8_lossy(&shown.0));
    }
});

struct Shown(Vec<u8>);

impl embedded_io::ErrorType for Shown {
    type Error = std::convert::Infallible;
}

impl embedded_io::Write for Shown {
    fn write(&mut self, bytes: &[u8]) -> Result<usize, Self::Error> {
        self.0.extend(bytes);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> Result<(), Self::Error> {
        Ok(())
    }
}

