//! How long the core takes. The page draws a plan again on every move of a pointer, 16 ms apart at best; the demo's is
//! to take no more than 100 µs natively, with all that can be braided in it. Benchmarks run natively only.

#[cfg(not(target_arch = "wasm32"))]
mod growth;

#[cfg(not(target_arch = "wasm32"))]
mod native {
    use super::growth;
    use divan::{Bencher, black_box};
    use taperwright::base::units::{Length, Mass};
    use taperwright::braid::ladder::{CarrierPin, Ladder, LadderCache};
    use taperwright::braid::taper::{Point, Taper};
    use taperwright::braid::threads::Build;
    use taperwright::braid::weight::CLASSES;
    use taperwright::design::demo::demo;
    use taperwright::design::settings::Setting;
    use taperwright::design::{Design, DraftPoint};
    use taperwright::edit::Edit;
    use taperwright::edit::finder::Finder;
    use taperwright::edit::matching::{Mover, reach_class};
    use taperwright::keep::book::estimate::Estimate;
    use taperwright::keep::book::next::Worths;
    use taperwright::keep::book::record::LineRecord;
    use taperwright::keep::book::swatch::Swatch;
    use taperwright::keep::book::{Frozen, Workshop};
    use taperwright::keep::share::{file, link};
    use taperwright::keep::shelf::memory::Memory;
    use taperwright::keep::shelf::{Id, LINE_KEY, Shelf, Writer};
    use taperwright::measured::{Asked, MOST_READINGS, Reading, Trust, find};
    use taperwright::plan::Plan;
    use taperwright::turnover::{Cast, Surroundings, turn_over};

    /// The largest line there is room for: a thousand control points up and down between half and all of 64 carriers.
    fn largest() -> Design {
        let mut draft = demo().draft().clone();
        draft.settings.set(Setting::HornGears, 32.0);
        draft.settings.set(Setting::MostThreads, 64.0);
        draft.settings.set(Setting::FewestThreads, 32.0);
        // A braid twice as thick advances by twice as much in a circuit; and no stop is left out.
        let constant = draft.settings.get(Setting::MachineConstant);
        draft.settings.set(Setting::MachineConstant, constant * 2.0);
        draft.settings.set(Setting::StopPrice, 0.0);
        draft.points = (0..1000_u32)
            .map(|index| DraftPoint {
                at_m: f64::from(index) * 0.1,
                diameter_mm: if index.is_multiple_of(2) { 1.5 } else { 2.4 },
            })
            .collect();
        Design::parse(draft).expect("the largest line is a valid one")
    }

    fn full_book() -> Workshop {
        let mut book = Workshop::new("full".to_owned(), &demo());
        let plan = Plan::of(&demo());
        let swatch = Swatch {
            threads: Some(14.0),
            ends: Some(14.0),
            driver: Some(30.0),
            driven: Some(40.0),
            length_m: Some(0.3),
            circuits: Some(123.0),
            mass_g: Some(0.205),
            ..Swatch::default()
        };
        let mut line = LineRecord::new("a line".to_owned(), Frozen::of(&demo()));
        line.bare.mass_g = Some(plan.bare_mass.grams());
        line.finished.mass_g = Some(plan.total_mass.grams());
        line.finished.head_mass_g = plan.head_mass.map(Mass::grams);
        (book.swatches, book.records) = (vec![swatch; 20], vec![line; 10]);
        let learnt = Estimate::of(&book);
        assert_eq!((learnt.swatches, learnt.lines), (20, 10));
        book
    }

    #[divan::bench]
    fn plan_of_the_demo(bencher: Bencher<'_, '_>) {
        let design = demo();
        let mut ladders = LadderCache::default();
        bencher.bench_local(move || Plan::with(black_box(&design), &mut ladders));
    }

    #[divan::bench]
    fn plan_of_the_largest_line(bencher: Bencher<'_, '_>) {
        let design = largest();
        let plan = Plan::of(&design);
        assert_eq!((plan.threads_min(), plan.threads_max()), (32, 64));
        let mut ladders = LadderCache::default();
        bencher.bench_local(move || Plan::with(black_box(&design), &mut ladders));
    }

    #[divan::bench]
    fn plan_of_heavier_threads(bencher: Bencher<'_, '_>) {
        let heavier = Edit::Build(Build::HeavierThreads).apply(&demo());
        let design = heavier.expect("the demo can be built so");
        let mut ladders = LadderCache::default();
        bencher.bench_local(move || Plan::with(black_box(&design), &mut ladders));
    }

    #[divan::bench]
    fn plan_of_forty_points(bencher: Bencher<'_, '_>) {
        let design = growth::forty_points();
        let mut ladders = LadderCache::default();
        bencher.bench_local(move || Plan::with(black_box(&design), &mut ladders));
    }

    #[divan::bench(args = growth::POINTS)]
    fn plan_of_points(bencher: Bencher<'_, '_>, points: u32) {
        let design = growth::of_points(points);
        let mut ladders = LadderCache::default();
        bencher.bench_local(move || Plan::with(black_box(&design), &mut ladders));
    }

    #[divan::bench(args = growth::CARRIERS)]
    fn plan_of_carriers(bencher: Bencher<'_, '_>, carriers: u32) {
        let design = growth::of_carriers(carriers);
        let mut ladders = LadderCache::default();
        bencher.bench_local(move || Plan::with(black_box(&design), &mut ladders));
    }

    /// From the fewest threads to the most, with a pin of a step that no line takes, which changes nothing.
    #[divan::bench(args = [(16, 3, 16), (16, 8, 14), (64, 32, 64), (64, 4, 64)])]
    fn new_ladder(bencher: Bencher<'_, '_>, (carriers, start, full): (u32, u32, u32)) {
        let track = growth::of_carriers(carriers).track();
        let carrier = track.all().next().expect("a carrier");
        let pin = CarrierPin {
            threads: 1000,
            carrier,
        };
        bencher.bench_local(move || Ladder::new(track, start, full, &[pin]));
    }

    #[divan::bench]
    fn finder_on_forty_points(bencher: Bencher<'_, '_>) {
        let design = growth::forty_points();
        bencher.bench_local(|| Finder::new(black_box(&design)).finish());
    }

    /// A well-filled book: twenty swatches, and ten lines weighed bare, oiled and finished.
    #[divan::bench]
    fn estimate_of_a_book(bencher: Bencher<'_, '_>) {
        let book = full_book();
        bencher.bench_local(|| Estimate::of(black_box(&book)));
    }

    /// What to measure next: once for each finished change of the line or the book.
    #[divan::bench]
    fn worths_of_a_book(bencher: Bencher<'_, '_>) {
        let (book, design) = (full_book(), demo());
        let (estimate, plan) = (Estimate::of(&book), Plan::of(&design));
        bencher.bench_local(|| Worths::of(black_box(&book), &estimate, (&design, &plan)));
    }

    /// As many readings as a line has at most and as many as are usual, some of them wrong, by how closely the taper is to follow them.
    #[divan::bench(args = [(2000, -4), (2000, 0), (2000, 4), (250, 0), (250, 4)], sample_count = 20)]
    fn found_taper_of_readings(bencher: Bencher<'_, '_>, (count, closeness): (u32, i8)) {
        assert!(count as usize <= MOST_READINGS);
        let readings = measured(count);
        // The micrometer is said to be better than it is, so that there is more to try.
        let asked = Asked {
            error: Length::from_micrometres(2.0),
            length: None,
            closeness,
        };
        bencher.bench_local(|| find(black_box(&readings), &asked));
    }

    /// A double taper of six points. Its errors are those of a generator of whole numbers, evenly spread over 28 µm.
    fn measured(count: u32) -> Vec<Reading> {
        let drawing = [
            (0.0, 0.76),
            (1.0, 0.76),
            (4.0, 1.1),
            (21.0, 1.1),
            (24.0, 0.76),
            (25.0, 0.76),
        ];
        let points = drawing.map(|(at, size)| Point {
            at: Length::from_metres(at),
            diameter: Length::from_millimetres(size),
        });
        let taper = Taper::new(points.to_vec()).expect("points in order");
        let mut state = 1_u32;
        let reading = |index: u32| {
            state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            let at = taper.length() * (f64::from(index) / f64::from(count - 1));
            let error = f64::from(state >> 8) / f64::from(1 << 24) * 28.0 - 14.0;
            let off = if index % 33 == 7 { 120.0 } else { error };
            Reading {
                at,
                diameter: taper.diameter_at(at) + Length::from_micrometres(off),
                trust: Trust::Judged,
            }
        };
        (0..count).map(reading).collect()
    }

    #[divan::bench]
    fn finder_on_the_demo(bencher: Bencher<'_, '_>) {
        let design = demo();
        bencher.bench_local(|| Finder::new(black_box(&design)).finish());
    }

    #[divan::bench]
    fn class_6_by_the_belly(bencher: Bencher<'_, '_>) {
        let design = demo();
        let class = CLASSES[5];
        bencher.bench_local(|| reach_class(black_box(&design), class, &[Mover::BellySize]));
    }

    /// A cast of the demo, once for each line that is compared.
    #[divan::bench]
    fn turnover_of_the_demo(bencher: Bencher<'_, '_>) {
        let line = Plan::of(&demo()).fly_line().expect("the demo is a line");
        let cast = Cast::default();
        bencher.bench_local(|| turn_over(black_box(&line), &cast, &Surroundings::USUAL));
    }

    /// A shelf of a thousand lines, each with the state before its newest, as a page finds it when it opens.
    fn full_shelf() -> Shelf<Memory> {
        let mut shelf = Shelf::load(Memory::default(), Writer(1)).expect("memory is there");
        for id in 0..1000 {
            let kept = shelf
                .keep_new(Id(id), &demo(), None)
                .expect("there is room");
            let renamed = Edit::Name(format!("line {id}")).apply(&demo());
            let renamed = renamed.expect("a name");
            shelf
                .keep(&kept.seen, &renamed, None)
                .expect("there is room");
        }
        shelf
    }

    #[divan::bench(sample_count = 20)]
    fn list_of_a_thousand_lines(bencher: Bencher<'_, '_>) {
        let shelf = full_shelf();
        bencher.bench_local(|| black_box(&shelf).list::<Design>());
    }

    /// The same as the version before kept them: plain files, each read to the end.
    #[divan::bench(sample_count = 20)]
    fn list_of_a_thousand_plain_files(bencher: Bencher<'_, '_>) {
        let text = file::write(&demo());
        let plain = (1..=1000).map(|number| (format!("{LINE_KEY}{number}"), text.clone()));
        let shelf = Shelf::load(Memory(plain.collect()), Writer(1)).expect("memory is there");
        bencher.bench_local(|| black_box(&shelf).list::<Design>());
    }

    #[divan::bench(sample_count = 20)]
    fn one_of_a_thousand_lines_opened(bencher: Bencher<'_, '_>) {
        let shelf = full_shelf();
        bencher.bench_local(|| black_box(&shelf).to_open::<Design>());
    }

    #[divan::bench]
    fn link_of_the_demo(bencher: Bencher<'_, '_>) {
        let design = demo();
        bencher.bench_local(|| link::encode(black_box(&design)));
    }

    #[divan::bench]
    fn demo_of_its_link(bencher: Bencher<'_, '_>) {
        let fragment = link::encode(&demo()).expect("the demo fits a link");
        bencher.bench_local(|| link::decode(black_box(&fragment)));
    }
}

#[cfg(not(target_arch = "wasm32"))]
fn main() {
    divan::main();
}

#[cfg(target_arch = "wasm32")]
fn main() {}
