#include "support/clinic.h"

#include "base/files.h"
#include "session/verbs.h"

#include <cstdlib>
#include <iostream>

using namespace gk;
using base::ErrorCode;
using session::DayMust;
using session::Verb;
using test::codeOf;
using test::must;

namespace {

/// A day with a child screened and a field isolated, and every verb ready to be called on it.
struct AllVerbs : test::Clinic {
  roster::ChildId mina = child("Mina");
  roster::ChildId other = child("Osei"); ///< not seated
  std::optional<chairside::FieldId> inHand;
  base::MemberId manager = must(session.enterMember(
      by, {"Corvin Ashlark", "CA", roster::Role::manager, "", {}, {}})); // entitled to nothing

  AllVerbs() {
    seat(mina);
    screenFour(mina);
    inHand = must(session.isolate(by, field(mina, {16, 46})));
  }

  /// Only a code comes back: what a verb returns when it went well is not the table's matter.
  template <class T>
  static std::optional<ErrorCode> code(const base::Result<T>& result) {
    return result ? std::nullopt : std::optional(result.error().code);
  }
  template <class T>
  base::Recorded<T> recorded(const T& value, base::Uuid id) {
    return {typename T::Key(id), {.entry = base::EntryId(id), .laptop = laptop}, value};
  }
  static base::Uuid someone() { return base::Uuid{}; }

  /// Calls the verb about `who`, with a reason of `why`. A verb that is not here does not compile.
  std::optional<ErrorCode> call(Verb verb, base::By as, roster::ChildId who, const std::string& why);

  std::optional<ErrorCode> callDesk(Verb verb, base::By as, roster::ChildId who,
                                    const std::string& why);
  std::optional<ErrorCode> callDay(Verb verb, base::By as, roster::ChildId who,
                                   const std::string& why);
  std::optional<ErrorCode> callChair(Verb verb, base::By as, roster::ChildId who,
                                     const std::string& why);
};

} // namespace
