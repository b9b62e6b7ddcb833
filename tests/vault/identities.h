#pragma once

#include "vault/identity.h"

namespace gk::test {

inline base::Date day(int year, unsigned month, unsigned dayOfMonth) {
  return *base::Date::of(year, month, dayOfMonth);
}

inline vault::Identity mina() {
  return {.first = "Wilhelmina",
          .middle = "Rose",
          .last = "Tolliver-Reed",
          .nameUsed = "Mina",
          .birth = day(2019, 4, 3),
          .room = "6",
          .teacher = "J. Pellwater",
          .guardians = {{.name = "Rosa Tolliver",
                         .relation = "mother",
                         .phone = "000-555-0142",
                         .language = "en"},
                        {.name = "Ed Reed", .relation = "father", .phone = "", .language = "es"}},
          .note = "sister in room 7"};
}

} // namespace gk::test
