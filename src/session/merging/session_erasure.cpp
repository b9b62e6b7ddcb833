#include "base/text/text.h"
#include "session/cards/card_fold.h"
#include "session/reader_held.h"
#include "session/session_write.h"
#include "session/values/erasure.h"
#include "store/erasing.h"

#include <algorithm>
#include <set>

namespace gk::session {

using base::Error;
using base::ErrorCode;
using followup::MergeVerdict;

namespace {

/// The counts that a kind of row stands in.
std::vector<std::string> countsOf(const std::map<std::string, std::int64_t>& rows) {
  using Pair = std::pair<std::string_view, std::string_view>;
  constexpr auto counts = std::to_array<Pair>({
      {"consent", "forms back and consented"},
      {"screening", "screened, needing sealants, untreated decay and urgency"},
      {"placement", "students and teeth sealed, and the retention of those sealants"},
      {"retention_check", "sealants checked, and their retention"},
      {"varnish", "varnished"},
      {"day_outcome", "absent, declined, withdrawn and unfinished"},
      {"referral", "referrals and their outcomes"},
      {"letter", "letters"},
      {"incident", "incidents"},
      {"background", "payer and groups"},
  });
  std::vector<std::string> words;
  for (const auto& [kind, what] : counts)
    if (rows.contains(std::string(kind))) words.emplace_back(what);
  return words;
}

/// Two cards that are said to be one student's hold one student's records.
Result<std::vector<roster::ChildId>> cardsOf(store::Book& book, roster::ChildId child) {
  const auto answers = book.current<followup::MergeAnswer>(store::everything());
  if (!answers) return answers.error();
  const auto joins = book.current<roster::CardJoin>(store::everything());
  if (!joins) return joins.error();
  std::vector<roster::ChildId> cards{child};
  for (std::size_t i = 0; i < cards.size(); ++i) {
    for (const auto& [id, stamp, join] : *joins) {
      if (join.child != cards[i] && join.other != cards[i]) continue;
      const auto other = join.child == cards[i] ? join.other : join.child;
      if (std::ranges::find(cards, other) == cards.end()) cards.push_back(other);
    }
    for (const auto& answer : *answers) {
      const auto& said = answer.value;
      if (!said.other || said.verdict != MergeVerdict::keptOne) continue;
      if (said.child != cards[i] && *said.other != cards[i]) continue;
      const auto other = said.child == cards[i] ? *said.other : said.child;
      if (std::ranges::find(cards, other) == cards.end()) cards.push_back(other);
    }
  }
  return cards;
}

} // namespace

std::string ErasureLine::words() const {
  return "erased on " + record.stamp.at.date().words() + (by.empty() ? "" : " by " + by) +
         " at the request of " + record.value.request + ", " + base::counted(rows, "row", "rows") +
         " (" + record.value.authority + "; " + record.value.reason + "), " +
         (record.value.key ? "signed" : "by name only");
}

Result<ErasurePlan> DeskVerbs::erasurePlan(roster::ChildId id) {
  const auto card = cardThen(book_, id); // one that was joined or removed has its history
  if (!card) return card.error();
  auto cards = cardsOf(book_, id);
  if (!cards) return cards.error();
  auto rows = store::Erasing::plan(book_, *cards);
  if (!rows) return rows.error();
  ErasurePlan plan{std::move(*cards), card->row.value.number, std::move(*rows), 0, {}};
  for (const auto& [kind, count] : plan.rows)
    plan.total += count;
  plan.counts = countsOf(plan.rows);
  return plan;
}

Result<std::vector<ErasureLine>> DeskVerbs::erasures() {
  auto listed = store::Erasing::listed(book_);
  if (!listed) return listed.error();
  std::vector<ErasureLine> lines;
  if (listed->empty()) return lines;
  for (auto& one : *listed) {
    ErasureLine line{std::move(one.record), {}, one.rows, {}};
    if (line.record.stamp.by.author)
      if (const auto member =
              only<roster::Member>(store::subjectIs(*line.record.stamp.by.author), "team member"))
        line.by = member->value.initials;
    auto copies = copiesBefore(line.record.stamp);
    if (!copies) return copies.error();
    line.copies = std::move(*copies);
    for (const auto& other : one.joined) {
      const auto card = cardThen(book_, other);
      if (!card) return card.error();
      line.copies.push_back("student " + card->row.value.number +
                            " of this logbook, whom another laptop had joined with this one; erase "
                            "that student as well");
    }
    lines.push_back(std::move(line));
  }
  return lines;
}

std::string DeskVerbs::tracesNotice() {
  const auto kept = book_.keepsTraces();
  return kept && *kept ? std::string(tracesLeft) : std::string();
}

Result<ErasureDone> DeskVerbs::eraseStudent(By by, roster::ChildId child,
                                            const ErasureGrounds& grounds, std::int64_t rows,
                                            const OwnPin& pin, const base::Progress& progress) {
  const auto may =
      admit(Verb::eraseStudent, by, {.child = child, .reason = grounds.reason, .pin = pin});
  if (!may) return may.error();
  auto why = grounds;
  if (const auto said = base::fillIn(why.request, "enter who requested it, and how"); !said)
    return said.error();
  if (const auto said = base::fillIn(why.authority, "enter the rule that requires it"); !said)
    return said.error();
  const auto plan = erasurePlan(child);
  if (!plan) return plan.error();
  if (plan->total != rows)
    return Error{ErrorCode::recordChanged,
                 "this would erase " + base::counted(plan->total, "row", "rows") +
                     " permanently, and " + std::to_string(rows) +
                     " were confirmed; review what would be erased, then confirm that number"};
  if (vault_)
    for (const auto& text : {why.request, why.authority, why.reason})
      // A card without a name, or with one that cannot be read here, is erased all the same.
      if (const auto quiet = namesNeither(text, plan->cards);
          !quiet && quiet.error().code == ErrorCode::textMalformed)
        return Error{ErrorCode::textMalformed,
                     "who asked and why stay in the logbook; write it without a name"};
  if (const auto can = canSignErasure(*may); !can) return can.error();
  std::vector<roster::Erasure> listed;
  for (const auto& card : plan->cards)
    listed.push_back({card, plan->number, why.request, why.authority, why.reason});
  const auto erased = store::Erasing::erase(
      book_, {may->by(), world_.clock.now(), ruleOf(may->verb()).name}, listed,
      [&](roster::Erasure& one, base::LocalInstant at) { signErasure(one, may->by(), at); },
      progress);
  if (!erased) return erased.error();
  if (may->by().author) held_->shown.erase(*may->by().author); // for this one alone
  if (may->usesPin()) keyboard_.use();
  forgetRoll();
  changed_.emit(Change{});
  return ErasureDone{erased->rows, erased->isForgotten};
}

Result<store::Agreed> DeskVerbs::admitMerge(const Agreed& agreed) {
  if (!agreed.erasures) return store::Agreed{.copies = agreed.copies, .ahead = agreed.ahead};
  const auto may = admit(Verb::eraseListed, agreed.erasures->by, {.pin = agreed.erasures->pin});
  if (!may) return may.error();
  if (may->usesPin()) keyboard_.use();
  return store::Agreed{
      .copies = agreed.copies, .erasures = agreed.erasures->entries, .ahead = agreed.ahead};
}

} // namespace gk::session
