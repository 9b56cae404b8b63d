//! Where a frame is written before it goes to the terminal: a backend of ratatui that only gathers bytes.

use crossterm::terminal;
use ratatui::backend::{Backend, ClearType, CrosstermBackend, WindowSize};
use ratatui::buffer::Cell;
use ratatui::layout::{Position, Size};
use std::io;
use std::mem;

/// The bytes that are not handed over yet.
#[derive(Debug, Default)]
pub struct Gathered {
    bytes: Vec<u8>,
}

impl Gathered {
    /// What was written since the last time.
    pub fn take(&mut self) -> Vec<u8> {
        mem::take(&mut self.bytes)
    }

    const fn writer(&mut self) -> CrosstermBackend<&mut Vec<u8>> {
        CrosstermBackend::new(&mut self.bytes)
    }
}

impl Backend for Gathered {
    type Error = io::Error;

    fn draw<'a, I>(&mut self, content: I) -> io::Result<()>
    where
        I: Iterator<Item = (u16, u16, &'a Cell)>,
    {
        self.writer().draw(content)
    }

    fn append_lines(&mut self, count: u16) -> io::Result<()> {
        self.writer().append_lines(count)
    }

    fn hide_cursor(&mut self) -> io::Result<()> {
        self.writer().hide_cursor()
    }

    fn show_cursor(&mut self) -> io::Result<()> {
        self.writer().show_cursor()
    }

    /// Nowhere in particular: the terminal is never asked, since its answer would come among what is typed.
    fn get_cursor_position(&mut self) -> io::Result<Position> {
        Ok(Position::ORIGIN)
    }

    fn set_cursor_position<P: Into<Position>>(&mut self, position: P) -> io::Result<()> {
        self.writer().set_cursor_position(position)
    }

    fn clear(&mut self) -> io::Result<()> {
        self.writer().clear()
    }

    fn clear_region(&mut self, region: ClearType) -> io::Result<()> {
        self.writer().clear_region(region)
    }

    fn size(&self) -> io::Result<Size> {
        terminal::size().map(Size::from)
    }

    fn window_size(&mut self) -> io::Result<WindowSize> {
        Ok(WindowSize { columns_rows: self.size()?, pixels: Size::default() })
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}
