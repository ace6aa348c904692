//! A workbook: sheets of texts and numbers. A text stays one, so that a spreadsheet makes no date of 3/8.

use std::io;

use rust_xlsxwriter::{DocProperties, ExcelDateTime, Format, Workbook, XlsxError};

/// A workbook before it is written.
#[derive(Clone, Debug)]
pub(crate) struct Book {
    pub(crate) title: String,
    /// Year, month and day that it says it was made on.
    pub(crate) date: (i16, i8, i8),
    pub(crate) sheets: Vec<Sheet>,
}

#[derive(Clone, Debug)]
pub(crate) struct Sheet {
    pub(crate) name: &'static str,
    pub(crate) columns: Vec<&'static str>,
    pub(crate) rows: Vec<Vec<Cell>>,
}

#[derive(Clone, Debug)]
pub(crate) enum Cell {
    Text(String),
    Number(f64),
    Empty,
}

impl Cell {
    pub(crate) fn text(text: impl ToString) -> Cell {
        Cell::Text(text.to_string())
    }

    pub(crate) fn count(count: u32) -> Cell {
        Cell::Number(count.into())
    }
}

pub(crate) fn render(book: &Book) -> io::Result<Vec<u8>> {
    made(book).map_err(io::Error::other)
}

fn made(book: &Book) -> Result<Vec<u8>, XlsxError> {
    let mut workbook = Workbook::new();
    let (year, month, day) = book.date;
    // The same order makes the same file.
    let date = ExcelDateTime::from_ymd(
        year.try_into().unwrap_or(1900),
        month.try_into().unwrap_or(1),
        day.try_into().unwrap_or(1),
    )?;
    workbook.set_properties(&DocProperties::new().set_title(&book.title).set_creation_datetime(&date));
    let (head, text) = (Format::new().set_bold(), Format::new().set_num_format("@"));
    for sheet in &book.sheets {
        let worksheet = workbook.add_worksheet().set_name(sheet.name)?;
        for (column, name) in (0_u16..).zip(&sheet.columns) {
            worksheet.write_string_with_format(0, column, *name, &head)?;
        }
        for (row, cells) in (1_u32..).zip(&sheet.rows) {
            for (column, cell) in (0_u16..).zip(cells) {
                match cell {
                    Cell::Text(said) => worksheet.write_string_with_format(row, column, said, &text)?,
                    Cell::Number(number) => worksheet.write_number(row, column, *number)?,
                    Cell::Empty => continue,
                };
            }
        }
        worksheet.set_freeze_panes(1, 0)?;
        worksheet.autofit();
    }
    workbook.save_to_buffer()
}
