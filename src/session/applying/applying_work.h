#pragma once

#include "base/text/text.h"
#include "session/applying/applying.h"

#include <algorithm>

namespace gk::session {

using exchange::SetupThing;

inline base::Error located(const std::string& at, const base::Error& error) {
  return {error.code, at + ": " + error.detail};
}
inline base::Error located(const std::string& at, base::ErrorCode code, const std::string& why) {
  return {code, at + ": " + why};
}

/// What the desk's verbs ask of one kind of thing.
template <class T>
struct SetupVerbs {
  SetupKind kind;
  std::vector<std::string_view> needs; ///< of a new one
  std::function<List<T>()> all;
  std::function<std::string(const T&)> key;
  std::function<std::string(const T&, const std::string& formerly)> formerKey;
  std::function<std::string(const T&)> words;
  std::function<Result<base::Done>(const T&)> enter;
  std::function<Result<base::Done>(const Recorded<T>& old, const T& now)> correct;
};

/// The one that has this key; none where there is none.
template <class T>
Result<const Recorded<T>*> oneOf(const std::vector<Recorded<T>>& all, const SetupVerbs<T>& verbs,
                                 const std::string& key) {
  const Recorded<T>* found = nullptr;
  for (const auto& row : all) {
    if (verbs.key(row.value) != key) continue;
    // Lots that are called so are one, and corrected together.
    if (found && !std::is_same_v<T, kit::Lot>)
      return base::Error{
          base::ErrorCode::recordChanged,
          "the logbook has two that are called so, from two laptops; give one of them "
          "another name first"};
    found = &row;
  }
  return found;
}

/// One document on its way into a logbook; applySetup is the way in.
class Applying {
 public:
  Applying(Session& session, const SetupDocument& document, const SetupAim& aim)
      : session_(session), document_(document), aim_(aim), by_(aim.by) {}

  Result<SetupApplied> run();

 private:
  SetupCounts& counts(SetupKind kind) { return applied_.counts.at(static_cast<std::size_t>(kind)); }
  void note(SetupKind kind, SetupChange change, const std::string& at, std::string what,
            std::vector<std::string> names = {});
  Result<base::Done> hasReason(const std::string& at) const;

  template <class T>
  static std::vector<std::string> changedNames(const SetupThing<T>& thing, const T& before) {
    std::vector<std::string> names;
    for (const auto& name : thing.says) {
      auto now = before;
      thing.into(now, name);
      if (!(now == before)) names.push_back(name);
    }
    return names;
  }

  template <class T>
  Result<base::Done> each(const std::vector<SetupThing<T>>& things, const SetupVerbs<T>& verbs) {
    if (things.empty()) return base::Done{};
    auto all = verbs.all();
    if (!all) return all.error();
    for (const auto& thing : things) {
      const auto before = known(thing, things, *all, verbs);
      if (!before) return located(thing.at, before.error());
      const auto isWritten = *before ? correct(thing, **before, verbs) : enter(thing, verbs);
      if (!isWritten) return isWritten.error();
      if (!*isWritten) continue;
      all = verbs.all();
      if (!all) return all.error();
    }
    return base::Done{};
  }

  /// Whether from former name to former name the document comes back to this one.
  template <class T>
  static bool goesRound(const SetupThing<T>& thing, const std::vector<SetupThing<T>>& things,
                        const SetupVerbs<T>& verbs) {
    const auto first = verbs.key(thing.value);
    const auto* at = &thing;
    for (std::size_t steps = 0; steps < things.size() && !at->formerly.empty(); ++steps) {
      const auto formerly = verbs.formerKey(at->value, at->formerly);
      if (formerly == first) return at != &thing;
      const auto next = std::ranges::find_if(
          things, [&](const auto& one) { return verbs.key(one.value) == formerly; });
      if (next == things.end()) return false;
      at = &*next;
    }
    return false;
  }

  template <class T>
  static Result<const Recorded<T>*>
  known(const SetupThing<T>& thing, const std::vector<SetupThing<T>>& things,
        const std::vector<Recorded<T>>& all, const SetupVerbs<T>& verbs) {
    auto now = oneOf(all, verbs, verbs.key(thing.value));
    if (!now || thing.formerly.empty()) return now;
    const auto formerly = verbs.formerKey(thing.value, thing.formerly);
    if (formerly == verbs.key(thing.value)) return now;
    if (goesRound(thing, things, verbs))
      return base::Error{base::ErrorCode::documentMalformed,
                         "names go round here: each of these was formerly called as another is "
                         "now, so once applied it could not be told apart; correct them one by "
                         "one at the desk"};
    const auto before = oneOf(all, verbs, formerly);
    // Another may have taken the name since, as the document itself says.
    const bool isTaken = std::ranges::any_of(
        things, [&](const auto& one) { return verbs.key(one.value) == formerly; });
    if (before && *before && *now && !isTaken)
      return base::Error{base::ErrorCode::documentMalformed,
                         "the logbook has one that is called so and one that is called as it was "
                         "formerly, so none can take the other's name"};
    return *now ? now : before;
  }

  template <class T>
  Result<bool> enter(const SetupThing<T>& thing, const SetupVerbs<T>& verbs) {
    for (const auto& name : verbs.needs)
      if (std::ranges::find(thing.says, name) == thing.says.end())
        return located(thing.at, base::ErrorCode::documentMalformed,
                       "it is not in the logbook yet, so \"" + std::string(name) + "\" is needed");
    if (const auto done = verbs.enter(thing.value); !done) return located(thing.at, done.error());
    note(verbs.kind, SetupChange::added, thing.at, verbs.words(thing.value));
    return true;
  }

  template <class T>
  Result<bool> correct(const SetupThing<T>& thing, const Recorded<T>& old,
                       const SetupVerbs<T>& verbs) {
    auto now = old.value;
    thing.into(now, {});
    if (now == old.value) {
      ++counts(verbs.kind).unchanged;
      return false;
    }
    if (const auto said = hasReason(thing.at); !said) return said.error();
    const auto names = changedNames(thing, old.value);
    if (const auto done = verbs.correct(old, now); !done) return located(thing.at, done.error());
    note(verbs.kind, SetupChange::corrected, thing.at, verbs.words(now), names);
    return true;
  }

  // applying_things.cpp
  Result<base::Done> program();
  Result<base::Done> schools();
  Result<base::Done> terms();
  Result<base::Done> years();
  Result<base::Done> team();
  Result<base::Done> author();
  Result<base::Done> lots();
  Result<base::Done> lights();

  // applying_lists.cpp: what is of the things above.
  Result<base::Done> enrollment();
  Result<base::Done> eligibility();
  Result<base::Done> cureTimes();
  Result<base::Done> plans();
  Result<base::Done> plan(const exchange::SetupPlan& said,
                          const std::vector<Recorded<roster::Term>>& terms);
  Result<base::Done> students();
  Result<base::Done> students(const exchange::SetupRoster& said);

  Result<Recorded<roster::School>> schoolOf(const std::string& code, const std::string& at);
  Result<Recorded<roster::Term>> termOf(const std::string& name, const std::string& at);

  Session& session_;
  const SetupDocument& document_;
  const SetupAim& aim_;
  base::By by_;
  SetupApplied applied_{};
};

} // namespace gk::session
