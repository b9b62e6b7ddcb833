#include "plan/county.h"

#include "base/contract.h"

namespace gk::demo {

base::Date on(int year, unsigned month, unsigned day) {
  const auto date = base::Date::of(year, month, day);
  base::require(date.has_value(), "a date in the demo that does not exist");
  return *date;
}

// Fall 2026 and the one-year checks are the figures of the demo county as it is described (see
// tests/journeys/county_test.cpp). Of fall 2025 only the sealed children and their teeth are
// given; enrollment, forms, consents, screenings, needs, varnish and decay of that term are
// invented, a little below the figures of 2026. The columns of a term are in the order of
// SchoolTerm:
//   enrolled | forms, consented, screened, absent, declined, left | needing, sealed, unfinished |
//   first, second molars | varnish, early, urgent | days
// clang-format off
const std::array<School, 6>& county() {
  static const std::array<School, 6> schools{{
      {"Alder Hollow Elementary", "AH", Desk::a, 71,
       {{{"2", 115}}, 78, 62, 60, 1, 0, 1, 51, 49, 2, 176, 0, 58, 13, 1,
        {on(2025, 9, 16), on(2025, 9, 18), on(2025, 9, 23)}},
       {{{"2", 118}}, 84, 68, 66, 1, 0, 1, 54, 52, 3, 188, 0, 64, 14, 1,
        {on(2026, 9, 15), on(2026, 9, 17), on(2026, 9, 22), on(2026, 9, 24)}},
       {49, 176, 36, 130, 114, 8, 6, 2}},
      {"Brindle Quay Elementary", "BQ", Desk::b, 64,
       {{{"2", 98}}, 61, 48, 47, 1, 0, 0, 40, 38, 1, 139, 0, 45, 10, 1,
        {on(2025, 9, 25), on(2025, 9, 30), on(2025, 10, 2)}},
       {{{"2", 96}}, 66, 52, 51, 1, 0, 0, 42, 41, 2, 149, 0, 49, 12, 1,
        {on(2026, 9, 29), on(2026, 10, 1), on(2026, 10, 6)}},
       {38, 139, 27, 98, 87, 6, 4, 1}},
      {"Cobble Lantern Elementary", "CL", Desk::a, 82,
       {{{"2", 71}, {"3", 68}}, 92, 72, 70, 1, 1, 0, 58, 55, 2, 198, 0, 67, 16, 1,
        {on(2025, 10, 7), on(2025, 10, 14), on(2025, 10, 21), on(2025, 10, 28)}},
       {{{"2", 73}, {"3", 69}}, 97, 77, 75, 1, 1, 0, 60, 57, 3, 203, 0, 72, 16, 2,
        {on(2026, 11, 5), on(2026, 11, 10), on(2026, 11, 12), on(2026, 11, 17)}},
       {55, 198, 38, 137, 108, 14, 12, 3}},
      {"Dunlin Marsh School (K-8)", "DM", Desk::a, 58,
       {{{"2", 36}, {"6", 35}}, 46, 35, 34, 1, 0, 0, 28, 26, 1, 66, 26, 32, 8, 1,
        {on(2025, 11, 4), on(2025, 11, 6)}},
       {{{"2", 38}, {"6", 36}}, 49, 39, 38, 1, 0, 0, 31, 29, 2, 71, 34, 36, 9, 2,
        {on(2026, 10, 7), on(2026, 10, 8), on(2026, 10, 13)}},
       {26, 92, 18, 64, 56, 4, 3, 1}},
      {"Elderbrook Middle", "EB", Desk::b, 66,
       {{{"6", 128}}, 70, 54, 52, 1, 0, 1, 43, 40, 2, 26, 118, 48, 11, 0,
        {on(2025, 11, 13), on(2025, 11, 18), on(2025, 11, 20)}},
       {{{"6", 131}}, 75, 58, 55, 2, 0, 1, 46, 42, 4, 36, 118, 50, 12, 0,
        {on(2026, 10, 15), on(2026, 10, 20), on(2026, 10, 22)}},
       {40, 144, 24, 86, 74, 6, 4, 2}},
      {"Fennel Ridge Elementary", "FR", Desk::a, 47,
       {{{"K", 27}, {"1", 30}, {"2", 29}}, 59, 46, 45, 0, 1, 0, 34, 33, 0, 109, 0, 43, 8, 1,
        {on(2025, 10, 9), on(2025, 10, 16), on(2025, 10, 23)}},
       {{{"K", 28}, {"1", 31}, {"2", 29}}, 65, 53, 52, 0, 1, 0, 38, 37, 1, 121, 0, 50, 8, 1,
        {on(2026, 10, 27), on(2026, 10, 29), on(2026, 11, 3)}},
       {33, 109, 25, 82, 73, 5, 3, 1}},
  }};
  return schools;
}
// clang-format on

} // namespace gk::demo
