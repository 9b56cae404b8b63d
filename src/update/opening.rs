//! What fills the screen, and what is laid on top.

use super::traffic::Effect;
use crate::phrase::lesson;
use crate::session::{Face, Overlay, Session};

pub(super) fn open(session: &mut Session, face: Face) -> Vec<Effect> {
    if session.practice.is_some() {
        session.notice = Some(lesson::verdict_first().into());
        return Vec::new();
    }
    session.face = face;
    session.look_afresh();
    Vec::new()
}

pub(super) fn overlay(session: &mut Session, overlay: Overlay) -> Vec<Effect> {
    session.overlays.push(overlay);
    session.look_afresh();
    Vec::new()
}
