//! The session: menu, questions, answers, keys.

use core::fmt::{self, Write as _};

use embedded_io::{Read, Write};
use shophead::practice::{BUILT_IN, HANDBOOK, Practice};
use shophead::rivet::part::Part;

use crate::answer;
use crate::dialog::{Dialog, Job, Question, numbered, one_of};
use crate::report::{Report, Telling};
use crate::screen::{Entry, MAX_ENTRY, Screen, TerminalError};
use crate::settings::Settings;
use crate::units::Units;

/// Runs a session until its user quits or the terminal is closed.
///
/// # Errors
/// As [`Session::run`]. What was answered by then is gone; a [`Session`] keeps it.
pub fn run<R: Read, W: Write>(
    input: R,
    output: W,
    settings: Settings,
) -> Result<(), TerminalError<R::Error, W::Error>> {
    Session::new().run(input, output, settings)
}

/// What a user has answered so far, the units and the practice chosen. It outlives a terminal that breaks.
///
/// ```
/// use shophead_handheld::{Session, Settings};
/// let settings = Settings::new(32, 8)?;
/// let mut session = Session::new();
/// let mut shown = [0_u8; 1024];
/// // The line ends in the middle of a job: rivet and first layer are keyed in.
/// session.run(&b"1\nMS20470AD4\n.032\n"[..], &mut shown[..], settings).expect("room enough");
/// // Plugged in again it goes on with the next question.
/// let mut shown = [0_u8; 1024];
/// let mut room = &mut shown[..];
/// session.run(&b""[..], &mut room, settings).expect("room enough");
/// let left = room.len();
/// assert_eq!(&shown[..shown.len() - left], b"enter=no more\nlayer 2?\n> ");
/// # Ok::<(), shophead_handheld::SettingsError>(())
/// ```
#[derive(Debug)]
pub struct Session<'p> {
    units: Units,
    practice: &'p Practice<'p>,
    /// Another practice than the built-in ones, which its user finds again.
    own: Option<&'p Practice<'p>>,
    dialog: Dialog,
    /// Whether the dialog is one that the user began.
    begun: bool,
    /// Whether its first words were said.
    greeted: bool,
}

impl Default for Session<'_> {
    fn default() -> Self {
        Session::new()
    }
}

impl<'p> Session<'p> {
    /// A session that nobody has begun yet: in inches, by the handbooks.
    #[must_use]
    pub fn new() -> Session<'p> {
        Session {
            units: Units::Inches,
            practice: &HANDBOOK,
            own: None,
            dialog: Dialog::new(Job::Length, None),
            begun: false,
            greeted: false,
        }
    }

    /// The same, begun in millimetres.
    #[must_use]
    pub fn in_millimetres(self) -> Session<'p> {
        Session { units: Units::Millimetres, ..self }
    }

    /// The same, begun by another practice, which may be a shop's own; its user can still change it, and change back.
    #[must_use]
    pub fn by(self, practice: &'p Practice<'p>) -> Session<'p> {
        let own = Some(practice).filter(|own| !BUILT_IN.contains(own));
        Session { practice, own, ..self }
    }

    /// Runs it until its user quits or the terminal is closed; after that it goes on where it stopped, at the same terminal or another.
    ///
    /// # Errors
    /// [`TerminalError`] when the terminal cannot be written, or not read any more. Single errors of reading cost the entry in which they
    /// happen, which is asked for again. What was typed wrong is no error: it is told, and asked again.
    pub fn run<R: Read, W: Write>(
        &mut self,
        input: R,
        output: W,
        settings: Settings,
    ) -> Result<(), TerminalError<R::Error, W::Error>> {
        let mut talk = Talk { screen: Screen::new(input, output, settings), session: self };
        talk.converse();
        match talk.screen.into_failure() {
            Some(failure) => Err(failure),
            None => Ok(()),
        }
    }

    fn has_answer(&self) -> bool {
        self.begun && self.dialog.question().is_none()
    }
}

/// A letter alone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Key {
    Back,
    Repeat,
    Units,
    Why,
    Practice,
    Menu,
    Help,
    Quit,
}

impl Key {
    const ALL: [(char, Key); 8] = [
        ('B', Key::Back),
        ('R', Key::Repeat),
        ('U', Key::Units),
        ('W', Key::Why),
        ('P', Key::Practice),
        ('M', Key::Menu),
        ('?', Key::Help),
        ('Q', Key::Quit),
    ];

    fn of(text: &str) -> Option<Key> {
        let mut letters = text.chars();
        let letter = letters.next().filter(|_| letters.as_str().is_empty())?.to_ascii_uppercase();
        Key::ALL.iter().find(|(known, _)| *known == letter).map(|(_, key)| *key)
    }
}

/// A session at a terminal.
struct Talk<'s, 'p, R: Read, W: Write> {
    screen: Screen<R, W>,
    session: &'s mut Session<'p>,
}

/// Where a session goes on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Next {
    Menu,
    Questions,
    Over,
}

impl<R: Read, W: Write> Talk<'_, '_, R, W> {
    fn converse(&mut self) {
        let mut next = Next::Menu;
        if !self.session.greeted {
            self.session.greeted = true;
            self.say(format_args!(
                "shophead: rivet sums. Advice only: the type's manual and a licensed person decide."
            ));
            self.list_jobs();
        } else if self.session.begun && self.session.dialog.question().is_some() {
            self.show_choices(false);
            next = Next::Questions;
        } else {
            self.list_jobs();
        }
        while next != Next::Over && !self.screen.is_over() {
            next = match next {
                Next::Menu => self.menu(),
                Next::Questions => self.question(),
                Next::Over => Next::Over,
            };
        }
    }

    fn say(&mut self, line: fmt::Arguments<'_>) {
        // The screen keeps its own failure.
        let _ = self.screen.write_fmt(line);
        self.screen.finish_line();
    }

    fn list_jobs(&mut self) {
        let _ = numbered(&mut self.screen, Job::ALL.iter().map(|(_, word)| *word));
        self.screen.finish_line();
    }

    fn list_keys(&mut self) {
        self.say(format_args!(
            "keys: B\u{a0}back R\u{a0}repeat U\u{a0}units W\u{a0}why P\u{a0}practice M\u{a0}menu Q\u{a0}quit"
        ));
    }

    fn read(&mut self, prompt: fmt::Arguments<'_>) -> Option<heapless::String<MAX_ENTRY>> {
        loop {
            match self.screen.ask(prompt) {
                Entry::Text(text) => return Some(text),
                Entry::TooLong => self.say(format_args!("an entry has at most {MAX_ENTRY} characters")),
                Entry::NotText => self.say(format_args!("only letters, digits and signs can be entered")),
                Entry::Unread => self.say(format_args!("not read: enter it again")),
                Entry::End => return None,
            }
        }
    }

    fn menu(&mut self) -> Next {
        let Some(text) = self.read(format_args!("1-{} or ?", Job::ALL.len())) else { return Next::Over };
        match Key::of(&text) {
            None if text.is_empty() => self.list_jobs(),
            None => match one_of(&Job::ALL, &text) {
                Ok((job, _)) => {
                    let rivet: Option<Part<'static>> = self.session.dialog.answers.rivet;
                    self.session.dialog = Dialog::new(*job, rivet);
                    self.session.begun = true;
                    self.show_choices(false);
                    return Next::Questions;
                }
                Err(refusal) => self.say(format_args!("{refusal}")),
            },
            Some(Key::Back) if self.session.begun && self.session.dialog.back() => {
                self.show_choices(false);
                return Next::Questions;
            }
            Some(Key::Back) => self.say(format_args!("nothing to go back to")),
            Some(Key::Repeat) => self.tell(Telling::Answer),
            Some(Key::Why) => self.tell(Telling::Why),
            Some(Key::Units) => {
                self.change_units();
                self.tell_again();
            }
            Some(Key::Practice) => {
                self.change_practice();
                self.tell_again();
            }
            Some(Key::Menu) => self.list_jobs(),
            Some(Key::Help) => {
                self.list_jobs();
                self.list_keys();
            }
            Some(Key::Quit) => return Next::Over,
        }
        Next::Menu
    }

    fn question(&mut self) -> Next {
        let Some(question) = self.session.dialog.question() else { return Next::Menu };
        let mut prompt: heapless::String<MAX_ENTRY> = heapless::String::new();
        // The longest prompt is half as long.
        let _ = self.session.dialog.write_prompt(question, &mut prompt);
        let Some(text) = self.read(format_args!("{prompt}")) else { return Next::Over };
        match Key::of(&text) {
            None => return self.take(question, &text),
            Some(Key::Back) => {
                if !self.session.dialog.back() {
                    self.session.begun = false;
                    self.list_jobs();
                    return Next::Menu;
                }
                self.show_choices(false);
            }
            Some(Key::Repeat) => self.show_choices(false),
            Some(Key::Help) => {
                self.show_choices(true);
                self.list_keys();
            }
            Some(Key::Units) => self.change_units(),
            Some(Key::Practice) => self.change_practice(),
            Some(Key::Why) => self.say(format_args!("no answer yet")),
            Some(Key::Menu) => {
                self.session.begun = false;
                self.list_jobs();
                return Next::Menu;
            }
            Some(Key::Quit) => return Next::Over,
        }
        Next::Questions
    }

    fn take(&mut self, question: Question, text: &str) -> Next {
        if let Err(refusal) = self.session.dialog.take(question, text, self.session.units, self.session.practice) {
            self.say(format_args!("{refusal}"));
            return Next::Questions;
        }
        if self.session.dialog.question().is_some() {
            self.show_choices(false);
            return Next::Questions;
        }
        self.tell(Telling::Answer);
        Next::Menu
    }

    fn show_choices(&mut self, all: bool) {
        if let Some(question) = self.session.dialog.question() {
            let _ = self.session.dialog.write_choices(question, all, &mut self.screen);
            self.screen.finish_line();
        }
    }

    fn tell(&mut self, telling: Telling) {
        if !self.session.has_answer() {
            self.say(format_args!("no answer yet"));
            return;
        }
        if telling == Telling::Answer {
            // Whoever skips the answer, or turns no page of it, has seen these.
            self.screen.must_be_read(true);
            self.write(Telling::Warnings);
            self.screen.must_be_read(false);
        }
        self.write(telling);
    }

    fn write(&mut self, telling: Telling) {
        let mut report = Report::new(&mut self.screen, telling, self.session.units, self.session.practice);
        let _ = answer::write(&self.session.dialog, self.session.practice, &mut report);
        self.screen.finish_line();
    }

    /// The last answer in the units or by the practice just chosen.
    fn tell_again(&mut self) {
        if self.session.has_answer() {
            self.tell(Telling::Answer);
        }
    }

    fn change_units(&mut self) {
        self.session.units = self.session.units.next();
        let word = self.session.units.as_str();
        self.say(format_args!("units: {word}"));
    }

    fn change_practice(&mut self) {
        let all = || self.session.own.into_iter().chain(BUILT_IN.iter().copied());
        let after = all().skip_while(|known| *known != self.session.practice).nth(1).or_else(|| all().next());
        self.session.practice = after.unwrap_or(&HANDBOOK);
        let (name, title) = (self.session.practice.name(), self.session.practice.title());
        self.say(format_args!("practice: {name}: {title}"));
    }
}
