//! Her weights and a wound's sizes over days, drawn; the same figures stand as a table under the drawing.

use crate::screen::wrap::wrapped;
use crate::view::graph::{GraphSet, GraphView};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::symbols::Marker;
use ratatui::text::{Line, Span};
use ratatui::widgets::{Axis, Chart, Dataset, GraphType, Widget};

/// How high a drawing is, and below which width none is made.
const HEIGHT: u16 = 9;
const NARROWEST: u16 = 36;

/// The drawing, and what its marks mean; nothing where it would be too narrow to read.
pub fn lines(graph: &GraphView, columns: usize) -> Vec<Line<'static>> {
    let width = u16::try_from(columns).unwrap_or(u16::MAX);
    if width < NARROWEST {
        return Vec::new();
    }
    let (x, y) = graph.ends();
    let room = (y.1 - y.0) * 0.05;
    let label = |value: f64| Span::raw(format!("{value:.0} {}", graph.unit));
    let days = graph.days.clone().map(Span::raw);
    let chart = Chart::new(graph.sets.iter().map(dataset).collect())
        .x_axis(Axis::default().bounds([x.0, x.1]).labels(days))
        .y_axis(Axis::default().bounds([y.0 - room, y.1 + room]).labels([label(y.0), label(y.1)]))
        .legend_position(None);
    let area = Rect::new(0, 0, width, HEIGHT);
    let mut buffer = Buffer::empty(area);
    chart.render(area, &mut buffer);
    let row =
        |y: u16| (0..width).filter_map(|x| buffer.cell((x, y))).map(ratatui::buffer::Cell::symbol).collect::<String>();
    let drawing = (0..HEIGHT).map(|y| Line::from(row(y).trim_end().to_owned()));
    drawing.chain(wrapped(&graph.marks, columns, "", Style::new())).collect()
}

/// Letters tell the lines apart, not colours.
fn dataset(set: &GraphSet) -> Dataset<'_> {
    let graph = if set.joined { GraphType::Line } else { GraphType::Scatter };
    Dataset::default().marker(Marker::Custom(set.mark)).graph_type(graph).data(&set.points)
}
