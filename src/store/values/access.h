#pragma once

namespace gk::store {

enum class Access { readWrite, readOnly };

/// Whether opening first looks through every page and every act (SQLite's integrity_check, the
/// digests; about as long as reading the file twice). With `skip` it does so only before the book
/// is brought up to date; `meanwhile` is for Book::open, which then looks while others read.
enum class Checkup { whole, skip, meanwhile };

} // namespace gk::store
