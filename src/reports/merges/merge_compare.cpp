#include "reports/merges/merge_compare.h"

#include "base/text/text.h"
#include "reports/records/words.h"

#include <algorithm>
#include <map>
#include <tuple>

namespace gk::reports {

namespace {

using Sides = std::vector<MergeSide>;
using Words = std::vector<std::string>;

/// The lines in their order: what is of the card, of the visit, each tooth, how it ended.
enum class Part { card, visit, tooth, end };

constexpr auto presenceWords = std::to_array<std::string_view>(
    {"unerupted", "partially erupted", "erupted", "extracted", "congenitally missing", "exfoliated",
     "primary tooth retained", "cannot be seen"});
constexpr auto conditionWords = std::to_array<std::string_view>(
    {"not examined", "sound", "non-cavitated lesion", "CAVITY", "filled", "sealant fully retained",
     "sealant partially retained", "crown", "band", "fractured"});
constexpr auto decisionWords = std::to_array<std::string_view>(
    {"", "seal", "glass ionomer sealant", "repair", "reseal", "watch", "REFER",
     "not allowed by the form", "cannot isolate", "student declined", "not today"});
constexpr auto urgencyWords =
    std::to_array<std::string_view>({"no obvious problem", "early care", "URGENT care"});
constexpr auto heldWords = std::to_array<std::string_view>(
    {"not sealed", "fully retained", "partially retained", "missing", "not assessable"});
constexpr auto healthWords =
    std::to_array<std::string_view>({"sound", "non-cavitated lesion", "CAVITY", "filled"});
static_assert(presenceWords.size() == base::enumCount<chairside::Presence> &&
              conditionWords.size() == base::enumCount<chairside::Condition> &&
              decisionWords.size() == base::enumCount<chairside::Decision> &&
              urgencyWords.size() == base::enumCount<chairside::Urgency> &&
              heldWords.size() == base::enumCount<followup::Held> &&
              healthWords.size() == base::enumCount<followup::ToothHealth>);

template <class Table, class E>
std::string from(const Table& table, E value) {
  return std::string(table.at(static_cast<std::size_t>(value)));
}

std::string surfaceWords(const chairside::ToothFinding& finding) {
  Words parts;
  bool allSound = true;
  for (const auto surface : dentition::SurfaceSet::all().values()) {
    const auto& found = finding.at(surface);
    if (found.condition == chairside::Condition::notLookedAt) continue;
    allSound = allSound && found.condition == chairside::Condition::sound &&
               found.origin == chairside::Origin::notSealed;
    parts.push_back(
        named(surface) + " " + from(conditionWords, found.condition) +
        (found.origin == chairside::Origin::notSealed ? "" : " (" + named(found.origin) + ")"));
  }
  if (parts.empty()) return "";
  return allSound ? "sound" : base::join(parts, ", ");
}

std::string placementWords(const chairside::Placement& placement) {
  const auto surfaces = ", " + dentition::words(placement.surfaces);
  if (placement.attempt == chairside::Attempt::complete)
    return "SEALED" + surfaces +
           (placement.type == chairside::PlacementType::fresh ? ""
                                                              : " (" + named(placement.type) + ")");
  return named(placement.attempt) + surfaces;
}

std::string checkWords(const followup::RetentionCheck& check) {
  auto words = "recheck: " + from(heldWords, check.tooth());
  if (check.health != followup::ToothHealth::sound) words += ", " + from(healthWords, check.health);
  return words;
}

/// What each side says, gathered a line at a time.
class Comparison {
 public:
  explicit Comparison(std::size_t sides) : sides_(sides) {}

  void say(Part part, const std::string& what, std::size_t side, std::string words) {
    put({part, std::nullopt, what}, side, std::move(words));
  }
  void say(const dentition::Tooth& tooth, const std::string& what, std::size_t side,
           std::string words) {
    put({Part::tooth, tooth, what}, side, std::move(words));
  }

  [[nodiscard]] std::vector<MergeLine> lines() const {
    std::vector<MergeLine> out;
    for (const auto& [key, said] : said_) {
      MergeLine line{std::get<std::string>(key), {}, false};
      for (const auto& words : said)
        line.said.push_back(words.empty() ? nothing : base::join(words, "; "));
      line.differs =
          std::ranges::any_of(line.said, [&](const auto& one) { return one != line.said.front(); });
      out.push_back(std::move(line));
    }
    return out;
  }

 private:
  using Key = std::tuple<Part, std::optional<dentition::Tooth>, std::string>;

  void put(const Key& key, std::size_t side, std::string words) {
    auto& said = said_.try_emplace(key, sides_).first->second;
    said.at(side).push_back(std::move(words));
  }

  std::size_t sides_;
  std::map<Key, std::vector<Words>> said_;
};

/// The place of the side that a row belongs to; none for a row of neither.
template <class T>
std::optional<std::size_t> sideOf(const DayView& view, const MergeQuestion& question,
                                  const base::Recorded<T>& row) {
  for (std::size_t i = 0; i < question.sides.size(); ++i) {
    const auto& side = question.sides[i];
    if (side.card ? row.value.child == *side.card
                  : row.value.child == question.child && firstWord(view, row).laptop == side.laptop)
      return i;
  }
  return std::nullopt;
}

template <class T, class Take>
void forEachOfSides(const DayView& view, const MergeQuestion& question, const Rows<T>& rows,
                    Take take) {
  for (const auto& row : rows) {
    if constexpr (requires { row.value.day; })
      if (row.value.day != view.records.id) continue;
    if (const auto side = sideOf(view, question, row)) take(*side, row.value);
  }
}

void sayCards(const DayView& view, const MergeQuestion& question, Comparison& into) {
  for (std::size_t i = 0; i < question.sides.size(); ++i) {
    const auto* card = view.child(*question.sides[i].card);
    if (!card) continue;
    into.say(Part::card, "Number", i, card->number);
    into.say(Part::card, "Birth month", i,
             std::to_string(card->birth.year) + "-" + (card->birth.month < 10 ? "0" : "") +
                 std::to_string(card->birth.month));
    into.say(Part::card, "Sex", i, named(card->sex));
    into.say(Part::card, "Grade and room", i,
             card->grade + ", " + (card->room.empty() ? nothing : card->room));
    into.say(Part::card, "On the school's roster", i, card->provisional ? "not yet" : "yes");
    if (!card->note.empty()) into.say(Part::card, "Note", i, card->note);
  }
  forEachOfSides(view, question, view.records.consents, [&](std::size_t side, const auto& form) {
    into.say(Part::card, "Form", side,
             named(form.state) + (form.signedOn ? ", signed " + form.signedOn->words() : ""));
  });
  forEachOfSides(view, question, view.records.flags, [&](std::size_t side, const auto& flag) {
    if (!flag.resolved)
      into.say(Part::card, "Health alert", side, named(flag.kind) + ", " + named(flag.action));
  });
}

const chairside::Placement* placementOf(const DayView& view, const chairside::PlacementId& id) {
  for (const auto* rows : {&view.records.placements, &view.records.checkedPlacements})
    for (const auto& row : *rows)
      if (row.id == id) return &row.value;
  return nullptr;
}

void sayVisits(const DayView& view, const MergeQuestion& question, Comparison& into) {
  const auto& records = view.records;
  const auto tooth = [&](const dentition::Tooth& one) { return view.tooth(one); };
  forEachOfSides(view, question, records.seatings, [&](std::size_t side, const auto& seating) {
    into.say(Part::visit, "Assent and health", side,
             std::string(seating.assented ? "assent" : "NO assent") +
                 (seating.historyUnchanged ? ", no health changes" : ", HEALTH CHANGED"));
  });
  forEachOfSides(view, question, records.screenings, [&](std::size_t side, const auto& screening) {
    into.say(Part::visit, "Urgency", side,
             from(urgencyWords, screening.urgency) +
                 (screening.urgentReason == chairside::UrgentReason::none
                      ? ""
                      : ": " + named(screening.urgentReason)));
    into.say(Part::visit, "Untreated decay", side, named(screening.untreatedDecay));
    into.say(Part::visit, "Treated decay", side, named(screening.treatedDecay));
    for (const auto& finding : screening.teeth)
      into.say(finding.tooth, tooth(finding.tooth), side, findingWords(finding));
  });
  forEachOfSides(view, question, records.checks, [&](std::size_t side, const auto& check) {
    if (const auto* placement = placementOf(view, check.placement))
      into.say(placement->tooth, tooth(placement->tooth), side, checkWords(check));
  });
  forEachOfSides(view, question, records.placements, [&](std::size_t side, const auto& placement) {
    into.say(placement.tooth, tooth(placement.tooth), side, placementWords(placement));
  });
  forEachOfSides(view, question, records.varnishes, [&](std::size_t side, const auto&) {
    into.say(Part::end, "Varnish", side, "yes");
  });
  forEachOfSides(view, question, records.outcomes, [&](std::size_t side, const auto& outcome) {
    into.say(Part::end, "Visit outcome", side,
             named(outcome.end) + (outcome.reason.empty() ? "" : ", " + outcome.reason));
  });
}

void findLosses(const DayView& view, MergeQuestion& question) {
  const auto addTo = [&](std::size_t side, followup::VisitFindings& into) {
    const auto take = [&](const auto& rows) {
      forEachOfSides(view, question, rows, [&](std::size_t at, const auto& value) {
        if (at == side) into.add(value);
      });
    };
    take(view.records.seatings);
    take(view.records.screenings);
    forEachOfSides(view, question, view.records.checks, [&](std::size_t at, const auto& check) {
      const auto* placement = placementOf(view, check.placement);
      if (at == side && placement) into.add(check, placement->tooth);
    });
  };
  for (std::size_t kept = 0; kept < question.sides.size(); ++kept) {
    followup::VisitFindings ofKept;
    followup::VisitFindings ofOthers;
    for (std::size_t i = 0; i < question.sides.size(); ++i)
      addTo(i, i == kept ? ofKept : ofOthers);
    question.sides[kept].wouldLose = followup::moreSerious(ofOthers, ofKept, view.records.notation);
  }
}

} // namespace

std::string findingWords(const chairside::ToothFinding& finding) {
  Words parts;
  if (finding.presence != chairside::Presence::erupted)
    parts.push_back(from(presenceWords, finding.presence));
  if (auto surfaces = surfaceWords(finding); !surfaces.empty())
    parts.push_back(std::move(surfaces));
  if (finding.enamel != chairside::Enamel::none)
    parts.push_back("enamel: " + named(finding.enamel));
  if (finding.softTissue != chairside::SoftTissue::none) parts.push_back(named(finding.softTissue));
  if (finding.decision != chairside::Decision::none)
    parts.push_back(from(decisionWords, finding.decision) +
                    (finding.toSeal.isEmpty() ? "" : " " + dentition::words(finding.toSeal)));
  if (finding.revisit) parts.emplace_back("look again");
  if (!finding.note.empty()) parts.push_back("\"" + finding.note + "\"");
  return parts.empty() ? "erupted, not examined" : base::join(parts, "; ");
}

void compareSides(const DayView& view, MergeQuestion& question) {
  Comparison comparison(question.sides.size());
  if (question.other) sayCards(view, question, comparison);
  sayVisits(view, question, comparison);
  question.lines = comparison.lines();
  // Of two cards everything is kept, whichever card is.
  if (!question.other) findLosses(view, question);
}

Table mergeTable(const MergeQuestion& question) {
  Table table{question.what, {{""}, {"Record"}}};
  for (const auto& side : question.sides)
    table.columns.push_back({side.heading});
  int alike = 0;
  for (const auto& line : question.lines) {
    if (!line.differs) ++alike;
    Cells row{line.differs ? differsMark : "", line.what};
    row.insert(row.end(), line.said.begin(), line.said.end());
    table.rows.push_back(std::move(row));
  }
  const auto differing = static_cast<int>(question.lines.size()) - alike;
  table.notes.push_back(std::string(differsMark) +
                        " marks what differs: " + counted(differing, "line", "lines") + "; " +
                        std::to_string(alike) + " the same.");
  return table;
}

} // namespace gk::reports
