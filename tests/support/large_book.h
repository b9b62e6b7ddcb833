#pragma once

#include "support/clinic.h"

namespace gk::test {

/// Makes an invented logbook of a long-running program at `path`, for measuring: 20 schools, eight
/// terms over four years, so many children in equal shares; seven of ten have a form, all of those
/// are screened, three of ten of them sealed in two half mouths, step by step, and a fifth of the
/// sealed are looked at again a year later. The open day is Clinic's, Tuesday November 17, 2026,
/// with 120 children (or all there are) still to be seen. The passphrase is Clinic's.
void makeLargeBook(const base::Path& path, int children);

} // namespace gk::test
