//! How long the core takes. The page draws a plan anew on every move of a pointer, 16 ms apart at best; the demo's is
//! to take no more than 250 µs natively, with all that can be braided in it. Benchmarks run natively only.

#[cfg(not(target_arch = "wasm32"))]
mod native {
    use divan::{Bencher, black_box};
    use taperwright::design::demo::demo;
    use taperwright::design::settings::Setting;
    use taperwright::design::{Design, DraftPoint};
    use taperwright::edit::Edit;
    use taperwright::finder::Finder;
    use taperwright::matching::{Mover, match_class};
    use taperwright::plan::Plan;
    use taperwright::share::link;
    use taperwright::threads::Build;
    use taperwright::weight::CLASSES;

    /// The largest line there is room for: 200 control points up and down between half and all of 64 carriers.
    fn largest() -> Design {
        let mut draft = demo().draft().clone();
        draft.settings.set(Setting::HornGears, 32.0);
        draft.settings.set(Setting::MostThreads, 64.0);
        draft.settings.set(Setting::FewestThreads, 32.0);
        draft.points = (0..200_u32)
            .map(|index| DraftPoint {
                at_m: f64::from(index) * 0.4,
                diameter_mm: if index.is_multiple_of(2) { 1.5 } else { 2.4 },
            })
            .collect();
        Design::parse(draft).expect("the largest line is a valid one")
    }

    #[divan::bench]
    fn plan_of_the_demo(bencher: Bencher<'_, '_>) {
        let design = demo();
        bencher.bench_local(|| Plan::of(black_box(&design)));
    }

    #[divan::bench]
    fn plan_of_the_largest_line(bencher: Bencher<'_, '_>) {
        let design = largest();
        let plan = Plan::of(&design);
        assert_eq!((plan.threads_min(), plan.threads_max()), (32, 64));
        bencher.bench_local(|| Plan::of(black_box(&design)));
    }

    #[divan::bench]
    fn plan_of_heavier_threads(bencher: Bencher<'_, '_>) {
        let heavier = Edit::Build(Build::HeavierThreads).apply(&demo());
        let design = heavier.expect("the demo can be built so");
        bencher.bench_local(|| Plan::of(black_box(&design)));
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
        bencher.bench_local(|| match_class(black_box(&design), class, Mover::BellySize));
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
