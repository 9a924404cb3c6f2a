//! The drawing of a plan, as numbers and strings. For the chart: where things lie ([`scale`]), the grid ([`frame`]), and all that
//! follows the line ([`picture`]): curves ([`paths`]), cells of threads and gears ([`ribbon`]), words ([`notes`]), breaks in level
//! stretches ([`breaks`]); where points are grabbed ([`grip`]), what a hand there does ([`drag`]), and what it is told ([`tag`]).
//! Then the ruler of classes ([`ruler`]), a whole line small ([`outline`]), a bobbin filled as far as it will be ([`bobbin`]); the
//! machine at one place: who is mounted on its ring ([`ring`]), the ring from above ([`track_map`]), the braid it makes
//! ([`braid_view`]) and its angle to hold a line against ([`gauge`]); lines as planned and as weighed ([`planned_weighed`]); the readings of a measured
//! line ([`measured_picture`]); a cast in the air ([`flight`]) and what changes along it ([`cast_chart`]), and which way to move a point for it ([`point_arrow`]); and what was read from a photo ([`photo_threads`], [`photo_handles`], [`evenness`]).
//! [`term_pictures`] explain words of the trade. Nothing here knows a browser; the view puts it on the screen, the card on paper.

pub mod bobbin;
pub mod braid_view;
pub mod breaks;
pub mod cast_chart;
pub mod drag;
pub mod evenness;
pub mod finish;
pub mod flight;
pub mod frame;
pub mod gauge;
pub mod grip;
pub mod guides;
pub mod loupe;
pub mod measured_picture;
pub mod note;
pub mod notes;
pub mod outline;
mod path;
pub mod paths;
pub mod photo_handles;
pub mod photo_threads;
pub mod picture;
pub mod plan_choice;
pub mod planned_weighed;
pub mod point_arrow;
pub mod ribbon;
pub mod ring;
mod round_step;
pub mod ruler;
pub mod scale;
pub mod stairs;
pub mod tag;
pub mod term_pictures;
pub mod timeline;
pub mod track_map;
pub mod visible_range;
pub mod weight_curves;
