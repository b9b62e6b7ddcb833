#pragma once

#include "session/rights/verbs.h"
#include "support/clinic.h"

#include <functional>
#include <map>

namespace gk::test {

using Code = std::optional<base::ErrorCode>;

Code codeIn(const auto& result) {
  return result ? Code() : Code(result.error().code);
}

/// An open day with a child in the chair, teeth isolated, and every verb ready to be called on it.
struct AllVerbs : Clinic {
  struct Ask {
    base::By as;
    roster::ChildId who;
    std::string why;
  };
  using Call = std::function<Code(const Ask&)>;

  roster::ChildId mina = child("Mina");
  roster::ChildId waiting = child("Osei"); ///< not seated
  base::MemberId powerless =
      must(session.enterMember(by, {"Corvin Ashlark", "CA", roster::Role::manager, "", {}, {}}));
  std::map<session::Verb, Call> calls;

  AllVerbs() {
    seat(mina);
    screenFour(mina);
    must(session.isolate(by, field(mina, {16, 46})));
    fillDesk();
    fillStudents();
    fillDay();
    fillChair();
  }

  template <class T>
  base::Recorded<T> recorded(const T& value) {
    const base::Uuid id{};
    return {typename T::Key(id), {base::EntryId(id), laptop, 1, by, clock.now(), {}, {}}, value};
  }
  [[nodiscard]] base::Date today() { return clock.now().date(); }
  chairside::FieldId inHand(roster::ChildId who) {
    const auto fields = must(session.fields(who, day));
    return (fields.empty() ? must(session.fields(mina, day)) : fields).front().field.id;
  }

  void fillDesk();
  void fillStudents();
  void fillDay();
  void fillChair();
};

} // namespace gk::test
