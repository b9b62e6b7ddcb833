#pragma once

namespace gk::crypto {

/// Inside this module only: every function that calls the library calls this first. The library
/// makes itself ready once and answers at once after that, from any thread.
void makeReady();

} // namespace gk::crypto
