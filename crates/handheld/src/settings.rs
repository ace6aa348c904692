//! What a terminal is like.

use core::fmt;
use core::ops::RangeInclusive;

/// The widths that a session can be laid out for.
pub const COLUMNS: RangeInclusive<u8> = 16..=40;
/// The heights that a session can be laid out for.
pub const LINES: RangeInclusive<u8> = 2..=8;

/// What a terminal is like.
///
/// ```
/// use shophead_handheld::{Settings, SettingsError};
/// let keypad = Settings::new(16, 2)?.with_echo().with_carriage_return();
/// assert_eq!((keypad.columns(), keypad.lines()), (16, 2));
/// assert_eq!(Settings::new(80, 24), Err(SettingsError::Columns));
/// # Ok::<(), SettingsError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Settings {
    columns: u8,
    lines: u8,
    echo: bool,
    carriage_return: bool,
}

impl Settings {
    /// A terminal of this size that shows by itself what is typed and takes a line feed as the end of a line, as a desktop's does.
    ///
    /// # Errors
    /// [`SettingsError`] for sizes outside [`COLUMNS`] and [`LINES`].
    pub fn new(columns: u8, lines: u8) -> Result<Settings, SettingsError> {
        if !COLUMNS.contains(&columns) {
            Err(SettingsError::Columns)
        } else if !LINES.contains(&lines) {
            Err(SettingsError::Lines)
        } else {
            Ok(Settings { columns, lines, echo: false, carriage_return: false })
        }
    }

    /// The same for a terminal that shows only what it is sent: the session sends back what is typed.
    #[must_use]
    pub const fn with_echo(self) -> Settings {
        Settings { echo: true, ..self }
    }

    /// The same for a terminal that needs a carriage return before each line feed.
    #[must_use]
    pub const fn with_carriage_return(self) -> Settings {
        Settings { carriage_return: true, ..self }
    }

    /// Characters in a line.
    #[must_use]
    pub const fn columns(self) -> u8 {
        self.columns
    }

    /// Lines on the screen.
    #[must_use]
    pub const fn lines(self) -> u8 {
        self.lines
    }

    pub(crate) const fn echo(self) -> bool {
        self.echo
    }

    pub(crate) const fn line_end(self) -> &'static str {
        if self.carriage_return { "\r\n" } else { "\n" }
    }
}

/// Why a session cannot be laid out for a terminal.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum SettingsError {
    /// Fewer or more columns than [`COLUMNS`].
    Columns,
    /// Fewer or more lines than [`LINES`].
    Lines,
}

impl fmt::Display for SettingsError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (what, range) = match self {
            SettingsError::Columns => ("columns", COLUMNS),
            SettingsError::Lines => ("lines", LINES),
        };
        write!(f, "a handheld session needs {} to {} {what}", range.start(), range.end())
    }
}

impl core::error::Error for SettingsError {}
