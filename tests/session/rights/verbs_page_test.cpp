#include "session/rights/verbs.h"

#include "base/files/files.h"
#include "support/clinic.h"

#include <cstdlib>

using namespace gk;
using session::DayMust;
using test::must;

namespace {

std::string yes(bool is) {
  return is ? "yes" : "";
}

/// docs/verbs.md, as the table makes it.
std::string verbsPage() {
  std::string out =
      "# What each act asks\n\nMade from `src/session/rights/verbs.h` by `GK_WRITE_VERBS=1 "
      "build/release/bin/test_session \"[verbs]\"`. The\nsession holds every act against its row "
      "before anything else. No author, or one without the right:\n`rule.credential`; another "
      "state of the day: `rule.day-open`; not seated: `rule.identity`; no consent:\n"
      "`rule.consent`; no reason: `rule.reason`; the person typing has a PIN and is not signed "
      "in, or an\nact that asks for the PIN of the one who answers for it was not confirmed with "
      "it: `pin.needed`.\nRefusals come in that order. Whoever types for another needs the right "
      "to type. Members without a PIN\nare asked for none. "
      "What only those who sign or manage, or who treat, may change, any other may as "
      "long\nas the team has none of those. At setup no one need be named until someone has a "
      "PIN.\n\n| Act | Right | School day | Seated "
      "| Consent | Reason | PIN | Undo |\n|---|---|---|---|---|---|---|---|\n";
  for (const session::VerbRule& row : session::verbRules) {
    const auto day = row.day == DayMust::none     ? ""
                     : row.day == DayMust::exist  ? "any"
                     : row.day == DayMust::beOpen ? "open"
                                                  : "signed";
    const auto undo = row.takenBack == session::TakenBack::here
                          ? "at " + std::string(base::nameOf(row.station))
                      : row.takenBack == session::TakenBack::byOwn ? std::string("by correction")
                                                                   : std::string("never");
    out += "| " + std::string(row.name) + " | " + std::string(base::nameOf(row.right.task)) +
           (row.right.keeps == session::Keeps::program ? ", and signs or manages"
            : row.right.keeps == session::Keeps::kit   ? ", and treats, signs or manages"
                                                       : "") +
           (row.atSetup ? "; at setup unnamed too" : "") + " | " + day + " | " +
           yes(row.asksSeated) + " | " +
           (row.consent ? std::string(base::nameOf(*row.consent)) : "") + " | " +
           yes(row.asksReason) + " | " +
           (row.pin == session::PinAsked::yes        ? "her own"
            : row.pin == session::PinAsked::onSigned ? "her own, once signed"
                                                     : "") +
           " | " + undo + " |\n";
  }
  return out;
}

} // namespace

TEST_CASE("The page of the verbs is the table of the code", "[verbs][case-130]") {
  const auto file = base::Path(GK_SOURCE_DIR) / "docs/verbs.md";
  if (std::getenv("GK_WRITE_VERBS")) must(base::replaceFile(file, verbsPage()));
  CHECK(must(base::readFile(file)) == verbsPage());
}
