//! Keeps the machine awake while a bath is going: no sleep, no blank screen, no sleep on a closed lid.
//!
//! Asked of systemd's login manager through its own command, which holds the request for as long as the command it runs
//! lives. That command waits at the end of a pipe that we hold: when this program ends, however it ends, the pipe closes
//! and the machine may sleep again. Where there is no such manager nothing is asked, and nothing fails.

use std::process::{Child, Command, Stdio};

/// The request, while it stands.
#[derive(Debug, Default)]
pub(super) struct Awake {
    held: Option<Child>,
    /// It was tried and can't be had here; it isn't tried every second.
    is_refused: bool,
}

impl Awake {
    /// Asks for it, or lets it go. Says nothing to the dyer: a bath goes on through a sleep and tells of it afterwards.
    pub(super) fn follow(&mut self, is_wanted: bool) {
        self.follow_by(is_wanted, || {
            Command::new("systemd-inhibit")
                .args([
                    "--what=idle:sleep:handle-lid-switch",
                    "--who=Potside",
                    "--mode=block",
                ])
                .args(["--why=a bath is going", "cat"])
                .stdin(Stdio::piped())
                .stdout(Stdio::null())
                .stderr(Stdio::null())
                .spawn()
                .ok()
        });
    }

    fn follow_by(&mut self, is_wanted: bool, ask: impl FnOnce() -> Option<Child>) {
        if !is_wanted {
            self.is_refused = false;
            self.let_go();
            return;
        }
        let has_ended = self
            .held
            .as_mut()
            .is_some_and(|child| !matches!(child.try_wait(), Ok(None)));
        if has_ended {
            self.held = None;
            self.is_refused = true;
        }
        if self.held.is_none() && !self.is_refused {
            self.held = ask();
            self.is_refused = self.held.is_none();
        }
    }

    fn let_go(&mut self) {
        if let Some(mut child) = self.held.take() {
            drop(child.stdin.take());
            // It ends with its pipe; waiting for it leaves no dead process behind.
            child.wait().map(|_| ()).unwrap_or(());
        }
    }
}

impl Drop for Awake {
    fn drop(&mut self) {
        self.let_go();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A command that lives as long as its pipe, as the real one does.
    fn waits() -> Option<Child> {
        let cat = Command::new("cat")
            .stdin(Stdio::piped())
            .stdout(Stdio::null())
            .spawn();
        Some(cat.unwrap())
    }

    #[test]
    fn it_is_asked_once_and_let_go_when_no_bath_is_left() {
        let mut awake = Awake::default();
        awake.follow_by(true, waits);
        awake.follow_by(true, || panic!("it stands already"));
        assert!(awake.held.as_mut().unwrap().try_wait().unwrap().is_none());

        awake.follow_by(false, || panic!("it isn't wanted"));

        assert!(awake.held.is_none());
    }

    #[test]
    fn where_it_cannot_be_had_it_is_not_tried_every_second() {
        let mut awake = Awake::default();
        awake.follow_by(true, || None);
        awake.follow_by(true, || panic!("tried again"));

        // The next bath asks again.
        awake.follow_by(false, || None);
        awake.follow_by(true, waits);

        assert!(awake.held.is_some());
    }

    #[test]
    fn a_manager_that_refuses_ends_at_once_and_is_left_alone() {
        let mut awake = Awake::default();
        awake.follow_by(true, || {
            let mut child = Command::new("false").stdin(Stdio::piped()).spawn().unwrap();
            child.wait().unwrap();
            Some(child)
        });
        awake.follow_by(true, || panic!("asked again after a refusal"));
        assert!(awake.held.is_none());
    }
}
