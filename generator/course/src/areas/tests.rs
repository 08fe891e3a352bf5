//! What areas cover, and where their numbers stand.

use figures::Shape;

use super::Covered;

fn rectangle(left: f64, top: f64, width: f64, height: f64) -> Covered {
    Covered::new(Shape::Rectangle([left, top, width, height]))
}

#[test]
fn areas_that_touch_do_not_overlap() {
    let one = rectangle(10.0, 10.0, 20.0, 20.0);
    for beside in [rectangle(30.0, 10.0, 20.0, 20.0), rectangle(10.0, 30.0, 20.0, 5.0), rectangle(0.0, 0.0, 10.0, 10.0)]
    {
        assert!(!one.meets(&beside) && !beside.meets(&one));
    }
    let round = Covered::new(Shape::Ellipse([10.0, 10.0, 20.0, 20.0]));
    let corner = rectangle(10.0, 10.0, 2.5, 2.5);
    assert!(!round.meets(&corner), "the corner of the rectangle around an ellipse is not in it");
}

#[test]
fn areas_that_cover_the_same_overlap() {
    let one = rectangle(10.0, 10.0, 20.0, 20.0);
    let inside = rectangle(12.0, 12.0, 2.0, 2.0);
    let across = rectangle(0.0, 15.0, 100.0, 1.0);
    let triangle = Covered::new(Shape::Polygon(vec![[0.0, 0.0], [60.0, 0.0], [0.0, 60.0]]));
    for other in [&one, &inside, &across, &triangle] {
        assert!(one.meets(other) && other.meets(&one));
    }
    assert!(!inside.meets(&rectangle(50.0, 50.0, 1.0, 1.0)));
}

#[test]
fn a_polygon_goes_around_what_it_leaves_out() {
    let frame =
        [[0.0, 0.0], [40.0, 0.0], [40.0, 10.0], [10.0, 10.0], [10.0, 30.0], [40.0, 30.0], [40.0, 40.0], [0.0, 40.0]];
    let frame = Covered::new(Shape::Polygon(frame.to_vec()));
    assert!(!frame.meets(&rectangle(10.0, 10.0, 30.0, 20.0)));
    let [x, y] = frame.mark;
    assert!(x < 10.0 && (y - 20.0).abs() < 0.3, "its number stands in it: {x}, {y}");
}

#[test]
fn a_shape_smaller_than_a_cell_still_has_a_place_for_its_number() {
    let small = rectangle(10.01, 10.01, 0.02, 0.02);
    assert!((small.mark[0] - 10.02).abs() < 1e-9 && !small.meets(&small));
}
