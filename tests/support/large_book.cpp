#include "support/large_book.h"
#include "store/book.h"

#include <array>

namespace gk::test {

using chairside::Step;

namespace {

constexpr int schoolCount = 20;
constexpr int termCount = 8;
constexpr int daysPerTerm = 4; // at each school
constexpr int openDayChildren = 120;

/// What one school's term leaves for the days.
struct Batch {
  roster::SchoolId school;
  roster::TermId term;
  base::Date start;
  std::vector<roster::ChildId> withForm;
};

/// A sealed tooth, to be looked at a year later.
struct Sealed {
  roster::ChildId child;
  chairside::PlacementId placement;
};

/// Invented, with accents, hyphens and apostrophes as they come.
std::string firstName(int n) {
  constexpr std::array begin{"Mi", "Lu", "So", "Re", "Ta", "Ño", "Bé", "Ke", "Oh", "Wi"};
  constexpr std::array end{"na", "pe", "ren", "lka", "más", "ël", "ri", "doro", "beth", "ven"};
  const auto i = static_cast<std::size_t>(n);
  return std::string(begin[i % 10]) + end[i / 10 % 10];
}

std::string lastName(int n) {
  constexpr std::array begin{"Salt", "Fen",  "Hollo",  "Tolli", "O'Mar", "Quin", "Sedge",
                             "Brü",  "Otte", "Hather", "Lark",  "Pell",  "Núñe"};
  constexpr std::array middle{"mar", "whis", "we", "ver", "ro", "ste",
                              "lo",  "ker",  "ga", "di",  "lan"};
  constexpr std::array end{"sh", "tle", "ll", "-Reed", "wby", "rsley",
                           "ck", "z",   "nd", "ström", "ton"};
  const auto i = static_cast<std::size_t>(n);
  return std::string(begin[i % 13]) + middle[i / 13 % 11] + end[i / 143 % 11];
}

class LargeBook {
 public:
  LargeBook(const base::Path& path, int children)
      : clinic_(path, session::BookKind::throwaway), share_(children / (schoolCount * termCount)) {}

  void make() {
    openTerms();
    for (int school = 1; school < schoolCount; ++school)
      schools_.push_back(must(clinic_.session.enterSchool(
          clinic_.by, {"School " + std::to_string(school), "S" + std::to_string(school)})));
    for (const auto& [term, start] : terms_)
      for (const auto& school : schools_)
        batches_.push_back({school, term, start, {}});
    for (std::size_t first = 0; first < batches_.size(); first += schoolCount)
      enrollTerm(first);
    must(clinic_.session.finish());
    const auto path = clinic_.session.path();
    // Lets the book go, so that many visits can be written as one act.
    { const auto closed = std::move(clinic_.session); }
    auto book = must(store::Book::open(path, clinic_.laptop, store::Access::readWrite,
                                       store::Durability::bulk, clinic_.clock.now().at));
    for (std::size_t i = 0; i < batches_.size(); ++i)
      workTerm(i, book);
    must(book.finish());
  }

 private:
  void openTerms() {
    // Two a year before Clinic's own, Fall 2026.
    for (int n = 0; n < termCount - 1; ++n) {
      const int year = 2023 + n / 2;
      const bool isSpring = n % 2 == 0;
      const auto start = *base::Date::of(year, isSpring ? 1 : 9, 8);
      const auto end = *base::Date::of(year, isSpring ? 6 : 12, 12);
      terms_.emplace_back(
          must(clinic_.session.enterTerm(
              clinic_.by,
              {(isSpring ? "Spring " : "Fall ") + std::to_string(year), start, end, {}})),
          start);
    }
    terms_.emplace_back(clinic_.term, *base::Date::of(2026, 9, 8));
  }

  void enrollTerm(std::size_t first) {
    std::vector<session::NewChild> children;
    const int returned = share_ * 7 / 10;
    for (std::size_t i = first; i < first + schoolCount; ++i)
      for (int n = 0; n < share_; ++n)
        children.push_back(newChild(batches_[i], n < returned));
    const auto ids = must(clinic_.session.enrollRoster(
        clinic_.by, std::move(children), session::Confirmed::yes, session::Confirmed::yes));
    auto next = ids.begin();
    for (std::size_t i = first; i < first + schoolCount; ++i, next += share_)
      batches_[i].withForm.assign(next, next + returned);
  }

  session::NewChild newChild(const Batch& batch, bool hasForm) {
    const int n = count_++;
    session::NewChild made{{.number = roster::withCheckDigit(std::to_string(10'000 + n)),
                            .birth = {2018, 3},
                            .sex = n % 2 == 0 ? dentition::Sex::female : dentition::Sex::male,
                            .school = batch.school,
                            .grade = "2",
                            .room = std::to_string(1 + n % 24),
                            .note = {}},
                           {.first = firstName(n % 97),
                            .last = lastName(n % 1571),
                            .birth = *base::Date::of(2018, 3, 1 + static_cast<unsigned>(n % 28))}};
    made.identity.guardians.push_back(
        {"Rosa " + lastName(n % 1571), "mother", "000-555-0101", "English"});
    if (!hasForm) return made;
    made.form = [batch](roster::ChildId child) {
      return roster::Consent{.child = child,
                             .term = batch.term,
                             .state = roster::ConsentState::yes,
                             .allowed = roster::ServiceSet::all(),
                             .signedOn = batch.start,
                             .receivedOn = batch.start,
                             .validFrom = batch.start,
                             .validUntil = batch.start.plusMonths(9),
                             .note = {}};
    };
    return made;
  }

  void workTerm(std::size_t i, store::Book& book) {
    const auto& batch = batches_[i];
    auto waiting = std::span<const roster::ChildId>(batch.withForm);
    if (i + schoolCount >= batches_.size() && batch.school == clinic_.school)
      waiting =
          waiting.first(waiting.size() - std::min<std::size_t>(waiting.size(), openDayChildren));
    const auto inDay = waiting.size() / daysPerTerm + 1;
    for (int n = 0; n < daysPerTerm; ++n) {
      const auto today = waiting.first(std::min(inDay, waiting.size()));
      waiting = waiting.subspan(today.size());
      workDay(i, batch.start.plusDays(14 + 7 * n), today, book);
    }
  }

  void workDay(std::size_t i, base::Date on, std::span<const roster::ChildId> children,
               store::Book& book) {
    const auto at = base::atLocal(on, std::chrono::hours(15), std::chrono::hours(-5));
    const auto& batch = batches_[i];
    std::optional<roster::DayId> day;
    must(book.act(clinic_.by, at, [&](store::Act& act) {
      day = act.add(roster::ClinicDay{batch.term, batch.school, on, 1, {}, false});
      std::size_t nth = 0;
      for (const auto& child : children)
        visit(act, *day, child, nth++ % 10 < 3, i);
      recheck(act, *day, i);
    }));
    sign(*day, at, book);
  }

  /// By name only.
  void sign(roster::DayId day, base::LocalInstant at, store::Book& book) {
    const auto chains = must(book.chains());
    must(book.act(clinic_.by, at, [&](store::Act& act) {
      const auto id = act.add(roster::DayClosure{day, clinic_.hygienist, clinic_.coordinator});
      for (const auto capacity : {roster::Capacity::clinical, roster::Capacity::completeness})
        act.add(roster::DaySignature{.day = day,
                                     .closure = id,
                                     .signer = capacity == roster::Capacity::clinical
                                                   ? clinic_.hygienist
                                                   : clinic_.coordinator,
                                     .capacity = capacity,
                                     .key = {},
                                     .counts = {},
                                     .schema = chains.schema,
                                     .heads = chains.heads});
    }));
  }

  void visit(store::Act& act, roster::DayId day, roster::ChildId child, bool seals,
             std::size_t batch) {
    act.add(seating(child, day));
    auto screening = clinic_.fourSound(child);
    screening.day = day;
    if (!seals)
      for (auto& tooth : screening.teeth) {
        tooth.decision = chairside::Decision::none;
        tooth.toSeal = {};
      }
    act.add(screening);
    if (seals)
      for (const auto& half : {std::vector{16, 46}, std::vector{26, 36}})
        sealHalf(act, day, child, half, batch);
    if (seals) act.add(chairside::Varnish{child, day, clinic_.varnish});
    act.add(chairside::DayOutcome{child,
                                  day,
                                  seals ? chairside::DayEnd::sealedComplete
                                        : chairside::DayEnd::screenedNoneNeeded,
                                  {}});
  }

  void sealHalf(store::Act& act, roster::DayId day, roster::ChildId child,
                const std::vector<int>& half, std::size_t batch) {
    auto field = clinic_.field(child, half);
    field.day = day;
    const auto id = act.add(field);
    for (const auto& [step, seconds] :
         {std::pair(Step::etch, 22), {Step::rinse, 12}, {Step::dry, 0}, {Step::flow, 0}})
      act.add(clinic_.run(id, step, half, seconds));
    for (const int iso : half) {
      act.add(clinic_.run(id, Step::cure, {iso}, 20));
      act.add(clinic_.run(id, Step::check, {iso}));
      const auto tooth = dentition::toothAt(iso);
      const auto placement =
          act.add(chairside::Placement{.child = child,
                                       .day = day,
                                       .field = id,
                                       .tooth = tooth,
                                       .surfaces = dentition::usualSurfaces(tooth),
                                       .type = chairside::PlacementType::fresh,
                                       .attempt = chairside::Attempt::complete,
                                       .placedBy = clinic_.hygienist,
                                       .assistant = clinic_.assistant,
                                       .isolation = field.isolation,
                                       .fourHanded = field.fourHanded,
                                       .sealant = clinic_.resin,
                                       .etchant = clinic_.etchant,
                                       .light = clinic_.light,
                                       .etched = base::Seconds(22),
                                       .cured = base::Seconds(20),
                                       .cures = 1,
                                       .etches = 1,
                                       .frosty = true,
                                       .note = {}});
      sealed_[batch].push_back({child, placement});
    }
  }

  /// A fifth of those sealed here two terms ago.
  void recheck(store::Act& act, roster::DayId day, std::size_t batch) {
    if (batch < 2 * schoolCount) return;
    auto& due = sealed_[batch - 2 * schoolCount];
    const auto wanted = due.size() / 5 / daysPerTerm / 4 * 4; // four teeth a child
    for (std::size_t n = 0; n < wanted; ++n) {
      if (n % 4 == 0) act.add(seating(due.back().child, day));
      act.add(followup::RetentionCheck{.placement = due.back().placement,
                                       .child = due.back().child,
                                       .day = day,
                                       .kind = followup::CheckKind::longTerm,
                                       .occlusal = followup::Held::whole,
                                       .note = {}});
      due.pop_back();
    }
  }

  static chairside::Seating seating(roster::ChildId child, roster::DayId day) {
    return {child, day, {chairside::Identifier::spokenName, chairside::Identifier::birthDate}};
  }

  Clinic clinic_;
  int share_;
  int count_ = 0;
  std::vector<std::pair<roster::TermId, base::Date>> terms_;
  std::vector<roster::SchoolId> schools_{clinic_.school};
  std::vector<Batch> batches_;
  std::map<std::size_t, std::vector<Sealed>> sealed_;
};

} // namespace

void makeLargeBook(const base::Path& path, int children) {
  LargeBook(path, children).make();
}

} // namespace gk::test
