//! Plan of tapered lines.
