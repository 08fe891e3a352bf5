//! What is left of pictures, and what is refused. The photographs are of three pixels by two.

use faults::Code;
use imagesize::ImageSize;

use super::png::sum;
use super::{cleaned, exif};
use crate::course::Image;
use crate::files::NoText;

const JPEG: &str = "ffd8ffdb0043001b12141714111b1716171e1c1b2028422b28252528513a3d3042605565645f555d5b6a7899816a7190735b5d85b586909ea3abadab6780bcc9baa6c799a8aba4ffc0000b080002000301011100ffc40014000100000000000000000000000000000002ffc40014100100000000000000000000000000000000ffda0008010100003f00a001ffd9";
const PNG: &str = "89504e470d0a1a0a0000000d49484452000000010000000108000000003a7e9b550000000a4944415478da63f80f00010101001cb08c990000000049454e44ae426082";
const WEBP: &str = "3001009d012a0300020004006825a400037000fdb4000000";
const GIF: &str = "47494638396103000200800000000000ffffff2c000000000300020000020284510021fe0548656c6c6f0021ff0b4e45545343415045322e3003010000003b";

/// What a camera writes, and nobody should read on a page.
const SECRETS: [&[u8]; 4] = [b"Jane Fitter", b"51.5007N", b"Pocket Camera 3", b"<x:xmpmeta"];

fn bytes(hex: &str) -> Vec<u8> {
    let digit = |at: usize| u8::from_str_radix(&hex[at..at + 2], 16).expect("hexadecimal");
    (0..hex.len()).step_by(2).map(digit).collect()
}

fn clean(file: &str, bytes: &[u8]) -> Image {
    cleaned(bytes, file).unwrap_or_else(|refused| panic!("{:?}", code(refused)))
}

fn code(refused: NoText) -> Code {
    match refused {
        NoText::Refused(fault, _) | NoText::Unreadable(fault) => fault.code,
    }
}

fn refusal(file: &str, bytes: &[u8]) -> Option<Code> {
    cleaned(bytes, file).err().map(code)
}

fn secrets() -> Vec<u8> {
    SECRETS.concat()
}

/// Exif as a camera writes it: the lower byte first, other tags before the orientation, and text after it.
fn camera(orientation: u8) -> Vec<u8> {
    let mut block = b"II*\0\x08\0\0\0\x02\0".to_vec();
    block.extend(b"\x0f\x01\x02\0\x0f\0\0\0\x26\0\0\0");
    block.extend([b"\x12\x01\x03\0\x01\0\0\0".as_slice(), &[orientation, 0, 0, 0], &[0; 4]].concat());
    block.extend(secrets());
    block
}

fn segment(mark: u8, content: &[u8]) -> Vec<u8> {
    let length = u16::try_from(content.len() + 2).expect("short").to_be_bytes();
    [&[0xff, mark], length.as_slice(), content].concat()
}

fn photograph(orientation: u8) -> Vec<u8> {
    let plain = bytes(JPEG);
    let noted = [
        segment(0xe0, &[b"JFIF\0\x01\x02\0\0\x01\0\x01\x01\x01".as_slice(), b"Jane Fitter"].concat()),
        segment(0xe1, &[b"Exif\0\0".as_slice(), &camera(orientation)].concat()),
        segment(0xe1, &[b"http://ns.adobe.com/xap/1.0/\0".as_slice(), &secrets()].concat()),
        segment(0xed, &[b"Photoshop 3.0\0".as_slice(), &secrets()].concat()),
        segment(0xfe, &secrets()),
    ];
    [&plain[..2], &noted.concat(), &plain[2..], &secrets()].concat()
}

fn chunk(name: &[u8; 4], content: &[u8]) -> Vec<u8> {
    let length = u32::try_from(content.len()).expect("short").to_be_bytes();
    [length.as_slice(), name, content, &sum(&[name, content])].concat()
}

fn png(chunks: &[Vec<u8>]) -> Vec<u8> {
    let plain = bytes(PNG);
    [&plain[..33], &chunks.concat(), &plain[33..]].concat()
}

fn part(name: &[u8; 4], content: &[u8]) -> Vec<u8> {
    let length = u32::try_from(content.len()).expect("short").to_le_bytes();
    [name, length.as_slice(), content, &[0][..content.len() % 2]].concat()
}

fn webp(parts: &[Vec<u8>]) -> Vec<u8> {
    let inside = [b"WEBP".as_slice(), &parts.concat()].concat();
    [b"RIFF".as_slice(), &u32::try_from(inside.len()).expect("short").to_le_bytes(), &inside].concat()
}

fn frame() -> Vec<u8> {
    part(b"VP8 ", &bytes(WEBP))
}

fn has_secrets(image: &Image) -> bool {
    SECRETS.iter().any(|secret| image.bytes.windows(secret.len()).any(|window| window == *secret))
}

#[test]
fn a_photograph_keeps_its_pixels_and_its_orientation_alone() {
    let plain = clean("a.jpg", &bytes(JPEG));
    assert_eq!(plain.bytes, bytes(JPEG));
    for (orientation, size) in [(1, (3, 2)), (3, (3, 2)), (6, (2, 3)), (8, (2, 3))] {
        let image = clean("a.JPG", &photograph(orientation));
        assert!(!has_secrets(&image));
        assert_eq!(image.size, ImageSize { width: size.0, height: size.1 }, "{orientation}");
        let block = [b"Exif\0\0".as_slice(), &exif::block(orientation)].concat();
        let kept = image.bytes.windows(block.len()).any(|window| window == block);
        assert_eq!(kept, orientation > 1);
        assert!(image.bytes.ends_with(&bytes(JPEG)[2..]), "the coded picture is not touched");
    }
}

#[test]
fn a_png_keeps_its_colours_and_loses_what_is_written_in_it() {
    let text = png(&[
        chunk(b"gAMA", &[0, 0, 0xb1, 0x8f]),
        chunk(b"tEXt", &secrets()),
        chunk(b"zTXt", &secrets()),
        chunk(b"iTXt", &secrets()),
        chunk(b"eXIf", &camera(6)),
        chunk(b"tIME", b"\x07\xe8\x01\x01\0\0\0"),
        chunk(b"iCCP", &vec![0; 20_000]),
        chunk(b"vpAg", &secrets()),
    ]);
    let image = clean("a.png", &[text.as_slice(), &secrets()].concat());
    let colours = chunk(b"gAMA", &[0, 0, 0xb1, 0x8f]);
    let plain = bytes(PNG);
    let expected = [&plain[..33], &chunk(b"eXIf", &exif::block(6)), &colours, &plain[33..]].concat();
    assert_eq!(image.bytes, expected);
}

#[test]
fn a_webp_and_a_gif_lose_what_is_written_in_them() {
    let head = [0x2c, 0, 0, 0, 2, 0, 0, 1, 0, 0];
    let noted = webp(&[part(b"VP8X", &head), frame(), part(b"EXIF", &camera(1)), part(b"XMP ", &secrets())]);
    let image = clean("a.webp", &noted);
    let plain = [0x20, 0, 0, 0, 2, 0, 0, 1, 0, 0];
    assert_eq!(image.bytes, webp(&[part(b"VP8X", &plain), frame()]));
    assert_eq!(image.size, ImageSize { width: 3, height: 2 });
    let image = clean("a.gif", &bytes(GIF));
    assert!(!image.bytes.windows(5).any(|window| window == b"Hello"));
    assert!(image.bytes.windows(8).any(|window| window == b"NETSCAPE"), "it moves as often as before");
}

#[test]
fn a_webp_that_some_browsers_turn_is_told() {
    let head = [0x28, 0, 0, 0, 2, 0, 0, 1, 0, 0];
    let turned = webp(&[part(b"VP8X", &head), frame(), part(b"EXIF", &camera(6))]);
    assert_eq!(refusal("a.webp", &turned), Some(Code::ImageTurned));
}

#[test]
fn whatever_is_broken_off_is_refused() {
    let whole = [
        ("a.jpg", photograph(6)),
        ("a.png", png(&[chunk(b"tEXt", &secrets())])),
        ("a.webp", webp(&[frame()])),
        ("a.gif", bytes(GIF)),
    ];
    for (file, whole) in whole {
        let tail = if file == "a.jpg" { secrets().len() } else { 0 };
        for end in 12..whole.len() - tail {
            assert!(refusal(file, &whole[..end]).is_some(), "{file}: {end}");
        }
    }
}

#[test]
fn a_picture_of_another_kind_than_its_name_says_is_refused() {
    let all = [("jpg", bytes(JPEG)), ("png", bytes(PNG)), ("gif", bytes(GIF)), ("webp", webp(&[frame()]))];
    for (kind, bytes) in &all {
        for (other, _) in all.iter().filter(|(other, _)| other != kind) {
            let found = refusal(&format!("a.{other}"), bytes);
            assert_eq!(found, Some(Code::ImageNotWhatItSays), "{kind} as {other}");
        }
        assert_eq!(refusal("a.svg", b"\0"), Some(Code::ImageNotWhatItSays));
    }
}

#[test]
fn a_bomb_is_refused_by_what_it_declares() {
    let mut head = bytes(PNG)[16..29].to_vec();
    head[..8].copy_from_slice(&[0, 1, 0, 0, 0, 1, 0, 0]);
    let large = [&bytes(PNG)[..8], &chunk(b"IHDR", &head), &bytes(PNG)[33..]].concat();
    assert_eq!(refusal("a.png", &large), Some(Code::ImageTooManyPixels));
    let large = bytes(&JPEG.replace("ffc0000b0800020003", "ffc0000b08ffffffff"));
    assert_eq!(refusal("a.jpg", &large), Some(Code::ImageTooManyPixels));
    let head = [0, 0, 0, 0, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff];
    assert_eq!(refusal("a.webp", &webp(&[part(b"VP8X", &head), frame()])), Some(Code::ImageTooManyPixels));
    let small = [0, 0, 0, 0, 0, 0, 0, 0, 0, 0];
    assert_eq!(refusal("a.webp", &webp(&[part(b"VP8X", &small), frame()])), Some(Code::ImageDamaged));
    let large = bytes(&GIF.replace("47494638396103000200", "474946383961ffffffff"));
    assert_eq!(refusal("a.gif", &large), Some(Code::ImageTooManyPixels));
    let outside = bytes(&GIF.replace("2c0000000003000200", "2c00000000ffffffff"));
    assert_eq!(refusal("a.gif", &outside), Some(Code::ImageDamaged));
    let twice = bytes(&JPEG.replace("ffda", "ffc0000b08ffffffff01011100ffda"));
    assert_eq!(refusal("a.jpg", &twice), Some(Code::ImageDamaged));
}

mod svg;
