#include "base/text/text.h"
#include "followup/display_names.h"
#include "reports/merges/merge_compare.h"
#include "reports/records/inputs.h"
#include "roster/display_names.h"
#include "session/session_write.h"
#include "store/records/authorization_rows.h"
#include "store/records/chairside_rows.h"
#include "store/records/closing_rows.h"
#include "store/records/consent_rows.h"
#include "store/records/followup_rows.h"
#include "store/records/key_rows.h"
#include "store/records/kit_rows.h"
#include "store/records/people_rows.h"
#include "store/records/record_list.h"
#include "store/records/roster_rows.h"
#include "store/records/year_rows.h"
#include "store/values/rival_rule.h"
#include "store/values/row_words.h"

#include <algorithm>
#include <map>

// What two laptops said of one thing while apart, and which of it a person keeps.
namespace gk::session {

using base::Error;
using base::ErrorCode;
using reports::RivalWords;

namespace {

/// What a person calls the thing that a table's row is about; the table's own name where a row of
/// it is never corrected.
std::string thingCalled(std::string_view table) {
  using Pair = std::pair<std::string_view, std::string_view>;
  constexpr auto names = std::to_array<Pair>({
      {"child", "student's card"},
      {"sealed_identity", "name and family"},
      {"clinic_day", "school day"},
      {"day_effort", "hours of the day"},
      {"day_cost", "costs of the day"},
      {"list_columns", "columns of a school's list"},
      {"card_join", "two cards of one student"},
      {"form_handout", "forms handed out"},
      {"planned_day", "planned day"},
      {"day_envelope", "day envelope"},
      {"program_year", "school, grant or fiscal year"},
      {"day_outcome", "visit outcome"},
      {"consent", "consent form"},
      {"medical_flag", "medical alert"},
      {"light", "curing light"},
      {"lot_count", "supply count"},
      {"paper_count", "paper count"},
      {"screening", "findings"},
      {"placement", "sealant's tooth"},
      {"after_cure", "wiped surface and bite"},
      {"member", "team member"},
      {"authorization", "dentist's authorization"},
  });
  const auto* const found = std::ranges::find(names, table, &Pair::first);
  std::string name(found == names.end() ? table : found->second);
  std::ranges::replace(name, '_', ' ');
  return name;
}

using Fields = store::RowWords::Fields;

// What lies in a second table: a line for each tooth, day or role.
template <class T>
void addLists(Fields&, const T&) {}
void addLists(Fields& fields, const chairside::Screening& screening) {
  for (const auto& finding : screening.teeth)
    fields.emplace_back(finding.tooth.words(), reports::findingWords(finding));
}
void addLists(Fields& fields, const chairside::Authorization& word) {
  for (const auto& named : word.teeth)
    fields.emplace_back(named.tooth.words(), dentition::words(named.surfaces));
}
void addLists(Fields& fields, const roster::Term& term) {
  for (const auto& day : term.holidays)
    fields.emplace_back(day.words(), "no school");
}
void addLists(Fields& fields, const roster::DayEffort& effort) {
  for (const auto& one : effort.people)
    fields.emplace_back(base::displayName(one.role),
                        base::counted(one.time.count(), "minute", "minutes"));
}

void addLists(Fields& fields, const roster::DayCost& cost) {
  for (const auto& line : cost.lines)
    fields.emplace_back(base::displayName(line.kind), roster::centsText(line.amount));
}

template <class T>
store::RowWords::Fields fieldsOf(const T& value, const store::RowWords::Called& called) {
  store::RowWords words(store::Rows<T>::columns, called);
  store::Rows<T>::write(words, value);
  auto fields = words.fields();
  addLists(fields, value);
  return fields;
}

/// What a person calls members, lots, lights, schools, terms and days.
Result<std::map<base::Uuid, std::string>> namesOfThings(Reader& book, store::Book& all) {
  std::map<base::Uuid, std::string> names;
  const auto add = [&](const auto& rows, auto say) -> Result<base::Done> {
    if (!rows) return rows.error();
    for (const auto& row : *rows)
      names.emplace(row.id.uuid(), say(row.value));
    return base::Done{};
  };
  if (auto done = add(book.members(), [](const auto& one) { return one.initials; }); !done)
    return done.error();
  if (auto done = add(book.lots(), [](const auto& one) { return kit::shown(one); }); !done)
    return done.error();
  if (auto done = add(book.lights(), [](const auto& one) { return one.tag; }); !done)
    return done.error();
  if (auto done = add(book.schools(), [](const auto& one) { return one.name; }); !done)
    return done.error();
  if (auto done = add(book.terms(), [](const auto& one) { return one.name; }); !done)
    return done.error();
  if (auto done = add(all.current<roster::ClinicDay>(store::everything()),
                      [](const auto& one) { return one.date.words(); });
      !done)
    return done.error();
  return names;
}

/// The stamps of what took a word of the thing back, of its rivals.
Result<std::vector<base::Stamp>> takenBack(store::Book& book, const store::Rivals& thing) {
  const auto lines = book.rowsOfSubject(thing.subject);
  if (!lines) return lines.error();
  std::vector<base::Stamp> found;
  for (const auto& line : *lines)
    if (line.kind == "retraction" &&
        std::ranges::find(thing.words, line.stamp.entry) != thing.words.end())
      found.push_back(line.stamp);
  return found;
}

} // namespace

Result<std::vector<RivalWords>> Reader::rivalWords(roster::DayId day) {
  const auto rivals = book_.rivals();
  if (!rivals) return rivals.error();
  std::vector<RivalWords> out;
  if (rivals->empty()) return out;
  const auto names = namesOfThings(*this, book_);
  if (!names) return names.error();
  const store::RowWords::Called called = [&](const base::Uuid& id) {
    const auto name = names->find(id);
    return name == names->end() ? std::string("the same one") : name->second;
  };
  for (const auto& thing : *rivals) {
    const auto own = book_.dayOf(thing.words.front());
    if (!own) return own.error();
    if (*own && **own != day) continue;
    RivalWords rival{thingCalled(thing.kind), {}, {}};
    const auto child = book_.childOf(thing.words.front());
    if (!child) return child.error();
    rival.child = *child;
    std::optional<Error> failure;
    store::forEachRecord([&]<class T>() {
      if (store::Rows<T>::table != thing.kind || failure) return;
      auto all = book_.history<T>(store::subjectIs(typename T::Key(thing.subject)));
      if (!all) {
        failure = all.error();
        return;
      }
      std::erase_if(*all, [&](const auto& row) {
        return std::ranges::find(thing.words, row.stamp.entry) == thing.words.end();
      });
      auto taken = takenBack(book_, thing);
      if (!taken) {
        failure = taken.error();
        return;
      }
      store::keepMostCareful(*all);
      const bool isOut = store::isOutMeanwhile<T> && !taken->empty();
      for (const auto& row : *all) {
        const bool counts = !isOut && std::ranges::none_of(*all, [&](const auto& other) {
          return store::outranks(other, row);
        });
        rival.words.push_back(
            {row.stamp, fieldsOf(row.value, called), counts, store::isNarrowedMeanwhile<T>});
      }
      for (const auto& stamp : *taken)
        rival.words.push_back({stamp, {}, isOut});
    });
    if (failure) return *failure;
    if (rival.words.size() > 1) out.push_back(std::move(rival));
  }
  return out;
}

Result<base::Done> DayVerbs::settleWords(By by, base::EntryId kept) {
  const auto may = admit(Verb::settleWords, by);
  if (!may) return may.error();
  const auto rivals = book_.rivals();
  if (!rivals) return rivals.error();
  const auto thing = std::ranges::find_if(*rivals, [&](const auto& one) {
    return std::ranges::find(one.words, kept) != one.words.end();
  });
  if (thing == rivals->end())
    return Error{ErrorCode::recordChanged,
                 "this is settled already, or was corrected since; review the current entry"};
  const auto taken = takenBack(book_, *thing);
  if (!taken) return taken.error();
  const auto isBack = [&](base::EntryId word) {
    return std::ranges::find(*taken, word, &base::Stamp::entry) != taken->end();
  };
  const auto day = book_.dayOf(thing->words.front());
  if (!day) return day.error();
  if (*day)
    if (const auto open = dayInState(**day, DayMust::beOpen); !open) return open.error();
  // What caution decides is not for a person to undo here: a recalled lot stays set aside.
  const auto asked = rivalWords(day->value_or(roster::DayId(base::Uuid{})));
  if (!asked) return asked.error();
  const bool isAsked = std::ranges::any_of(*asked, [&](const auto& one) {
    return std::ranges::any_of(one.words,
                               [&](const auto& word) { return word.stamp.entry == kept; });
  });
  if (!isAsked)
    return Error{ErrorCode::ruleReason,
                 "another laptop's entry on this is more careful and is kept; correct that "
                 "one, with a reason"};
  const auto child = book_.childOf(thing->words.front());
  if (!child) return child.error();
  const auto words = thing->words; // what is written ends the list that it is of
  return write(*may, *child, [&](store::Act& act) {
    // The kept word is said once more, so that two laptops that each keep another one lose neither.
    constexpr auto why = "of two laptops' entries, this one is kept";
    if (!isBack(kept)) act.restate(kept, kept, why);
    for (const auto& word : words)
      if (word != kept && !isBack(word))
        act.retract(word, "of two laptops' entries, the other one is kept");
    return base::Done{};
  });
}

} // namespace gk::session
