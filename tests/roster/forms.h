#pragma once

#include "base/random.h"
#include "roster/consent/consent.h"

namespace gk::roster::test {

inline base::Date day(int year, unsigned month, unsigned dayOfMonth) {
  return base::Date::of(year, month, dayOfMonth).value();
}

/// Makes consent forms of one child with ids in the order in which they were written.
class Forms {
 public:
  /// A valid yes for the school year, all ticked but what `without` names.
  Consent yes(ServiceSet without = {}) {
    return {.child = child_,
            .term = term_,
            .state = without.isEmpty() ? ConsentState::yes : ConsentState::yesWithLimits,
            .allowed = ServiceSet::all().without(without),
            .signedOn = day(2026, 9, 10),
            .receivedOn = day(2026, 9, 14),
            .validFrom = day(2026, 9, 8),
            .validUntil = day(2027, 6, 30),
            .note = {}};
  }

  Consent in(ConsentState state) {
    auto form = yes();
    form.state = state;
    if (state != ConsentState::withdrawn) form.allowed = {};
    return form;
  }

  TermId otherTerm() { return TermId(newId()); }

  base::Recorded<Consent>
  row(Consent form, base::LocalInstant at = base::atLocal(day(2026, 9, 15), std::chrono::hours{9},
                                                          std::chrono::hours{-5})) {
    const auto id = newId();
    return {ConsentId(id),
            {base::EntryId(id), laptop_, ++sequence_, {}, at, std::nullopt, {}},
            std::move(form)};
  }

 private:
  base::Uuid newId() { return base::makeUuid7({base::Milliseconds{++moment_}}, random_); }

  base::SeededRandom random_{1};
  std::int64_t moment_ = 1'790'000'000'000;
  ChildId child_{newId()};
  TermId term_{newId()};
  base::LaptopId laptop_{newId()};
  std::int64_t sequence_ = 0;
};

} // namespace gk::roster::test
