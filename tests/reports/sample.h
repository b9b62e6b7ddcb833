#pragma once

#include "reports/day/close_out.h"
#include "reports/print/table.h"
#include "reports/term/term_totals.h"

#include <string>

namespace gk::test {

/// Identities and rows with rising numbers, so that later rows are newer.
class Maker {
 public:
  template <class Id>
  Id id() {
    base::Uuid uuid;
    ++last_;
    for (unsigned i = 0; i < 4; ++i)
      uuid.bytes[12 + i] = static_cast<std::uint8_t>(last_ >> (24U - 8U * i));
    return Id(uuid);
  }

  template <class T>
  base::Recorded<T> row(T value) {
    return named<T>(id<typename T::Key>(), std::move(value));
  }

  template <class T>
  base::Recorded<T> named(typename T::Key key, T value) {
    const auto entry = id<base::EntryId>();
    return {key,
            {entry, laptop_, last_, {author_, std::nullopt}, at_, std::nullopt, ""},
            std::move(value)};
  }

  void setTime(base::LocalInstant at) { at_ = at; }
  void setAuthor(base::MemberId author) { author_ = author; }

 private:
  std::int64_t last_ = 0;
  base::LaptopId laptop_{base::Uuid{}};
  std::optional<base::MemberId> author_;
  base::LocalInstant at_;
};

/// All rows as files have them.
inline std::vector<std::vector<std::string>> rowsOf(const reports::Table& table) {
  std::vector<std::vector<std::string>> rows;
  for (const auto& row : table.rows)
    rows.push_back(textsOf(row));
  return rows;
}

inline base::Date date(const std::string& iso) {
  return *base::Date::parse(iso);
}
inline base::LocalInstant noonOf(const std::string& iso) {
  return base::atLocal(date(iso), std::chrono::minutes{720}, std::chrono::minutes{0});
}

/// One clinic day at Cobble Lantern, Tuesday November 17, 2026, to be filled by a test.
struct SampleDay {
  Maker make;
  roster::TermId term = make.id<roster::TermId>();
  roster::SchoolId school = make.id<roster::SchoolId>();
  base::MemberId hygienist = make.id<base::MemberId>();
  kit::LotId fern = make.id<kit::LotId>();
  reports::DayRecords records{
      make.id<roster::DayId>(),
      {term, school, date("2026-11-17"), 1, "", false},
      {"Cobble Lantern Elementary", "CL"},
  };
  reports::Names names;

  SampleDay();

  roster::ChildId child(const std::string& name, roster::ConsentState state,
                        const std::string& room = "6");
  void consent(roster::ChildId child, roster::ConsentState state);
  chairside::Screening& screen(roster::ChildId child,
                               std::vector<chairside::ToothFinding> teeth = {});
  chairside::Placement& place(roster::ChildId child, int iso,
                              chairside::Attempt attempt = chairside::Attempt::complete);
  chairside::DayOutcome& end(roster::ChildId child, chairside::DayEnd end,
                             const std::string& reason = "");
  chairside::FieldId field(roster::ChildId child, int iso);
  /// On the teeth of the newest field.
  chairside::StepRun& step(chairside::FieldId field, chairside::Step step,
                           chairside::StepResult result);
  [[nodiscard]] reports::CloseOut closeOut() const { return reports::closeOut(records, names); }
};

/// The fall term of 2026 with as many schools as a test adds.
struct SampleTerm {
  Maker make;
  reports::TermRecords records{
      make.id<roster::TermId>(),
      {"Fall 2026", date("2026-09-08"), date("2026-12-18"), {}},
      date("2026-12-18"),
  };
  roster::TermId lastYear = make.id<roster::TermId>();

  roster::SchoolId school(const std::string& name, int enrolled = 0);
  roster::DayId day(roster::SchoolId school, const std::string& iso);
  roster::DayId dayLastYear(roster::SchoolId school, const std::string& iso);
  roster::ChildId child(roster::SchoolId school);
  void consent(roster::ChildId child, roster::ConsentState state);
  chairside::Screening& screen(roster::ChildId child, roster::DayId day,
                               std::vector<chairside::ToothFinding> teeth = {});
  chairside::PlacementId place(roster::ChildId child, roster::DayId day, int iso,
                               chairside::PlacementType type = chairside::PlacementType::fresh,
                               chairside::Attempt attempt = chairside::Attempt::complete);
  void end(roster::ChildId child, roster::DayId day, chairside::DayEnd end);
  followup::RetentionCheck& check(chairside::PlacementId placement, roster::DayId day,
                                  followup::Held held);
  [[nodiscard]] reports::TermTotals totals() const { return reports::termTotals(records); }
};

chairside::ToothFinding toSeal(int iso);
chairside::ToothFinding found(int iso, chairside::Condition condition);

} // namespace gk::test
