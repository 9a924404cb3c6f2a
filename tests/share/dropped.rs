//! What is dropped on the page opens as what it is, or is answered in words. Sources: none needed; RFC 2483, section 5, for
//! lists of addresses.

use taperwright::design::demo::demo;
use taperwright::keep::book::Workshop;
use taperwright::keep::book::file::{self as book, BookError};
use taperwright::keep::dropped::{DropError, Dropped, read};
use taperwright::keep::share::{file, link};

#[test]
fn a_design_file_is_a_line_and_a_book_is_a_book() {
    assert_eq!(
        read(&file::write(&demo())),
        Ok(Dropped::Line(Box::new(demo())))
    );
    let workshop = Workshop::new("Mill, lot B".to_owned(), &demo());
    assert_eq!(
        read(&book::write(&workshop)),
        Ok(Dropped::Book(Box::new(workshop)))
    );
}

#[test]
fn what_is_neither_is_said_to_be_neither() {
    let others = [
        "",
        "a shopping list",
        "{}",
        "[]",
        "{\"format\": \"a recipe\", \"version\": 1}",
        "\u{0}PNG",
    ];
    for text in others {
        assert_eq!(read(text), Err(DropError::Unknown), "{text:?}");
    }
    let said = DropError::Unknown.to_string();
    assert!(
        said.contains("not a line, a bench book or a backup"),
        "{said}"
    );
    assert!(DropError::Several(3).to_string().contains("3 things"));
    assert!(DropError::NoLink.to_string().contains("#line="));
}

#[test]
fn a_damaged_file_is_answered_as_by_its_button() {
    let damaged = file::write(&demo()).replace("\"gears\"", "\"gaers\"");
    let by_button = file::read(&damaged).expect_err("damaged");
    assert_eq!(read(&damaged), Err(DropError::Line(by_button.clone())));
    assert_eq!(
        DropError::Line(by_button.clone()).to_string(),
        by_button.to_string()
    );
    let whole = file::write(&demo());
    assert_eq!(read(&whole[..whole.len() / 2]), Err(DropError::CutOff));
    assert_eq!(
        read(&format!("\u{feff}{whole}")),
        Ok(Dropped::Line(Box::new(demo())))
    );
    let newer = format!("{{\"format\": \"{}\", \"version\": 99}}", book::FORMAT);
    assert_eq!(read(&newer), Err(DropError::Book(BookError::Newer(99))));
}

#[test]
fn a_link_is_found_in_what_surrounds_it() {
    let fragment = link::encode(&demo()).expect("short");
    let address = format!("https://braiding.example/t/#{fragment}");
    let texts = [
        address.clone(),
        format!("{address}\r\n"),
        // RFC 2483: lines that begin with a number sign are remarks.
        format!("# from a friend\r\n{address}\r\nhttps://braiding.example/\r\n"),
        format!("Look at my line: {address} and tell me"),
        format!("<a href=\"{address}\">line</a>"),
        format!("#{fragment}"),
        format!("See ({address}), or ask."),
        format!("{address}\u{200b} is mine"),
        format!("“{address}”"),
        format!("_{address}_"),
        format!("{address}…"),
        address.replace('#', "%23"),
    ];
    for text in texts {
        assert_eq!(link::fragment_in(&text), Some(fragment.as_str()), "{text}");
    }
    for text in [
        "",
        "#",
        "line=abc",
        "https://braiding.example/#lines",
        "#Lines=abc",
    ] {
        assert_eq!(link::fragment_in(text), None, "{text}");
    }
}
