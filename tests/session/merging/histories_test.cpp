#include "chairside/allergy.h"
#include "reports/day/close_out_tables.h"
#include "session/book/book_facts.h"
#include "session/computers.h"
#include "session/merging/merge_orders.h"
#include "support/long_checks.h"

#include <map>

// What a year may bring to four laptops, drawn by lot: whatever happened on which of them, every
// order of merging ends in one and the same logbook.

using namespace gk;
using base::ErrorCode;
using test::allOrdersAgree;
using test::Computer;
using test::County;
using test::must;

namespace {

/// A history of four laptops. What the rules refuse on a laptop as it stands then is left out
/// there; what was done is counted by name.
class History {
 public:
  explicit History(std::uint64_t seed) : dice_(seed) {
    // One behind the others, and one behind what is in the logbook; one ahead.
    for (std::size_t i = 0; i < 4; ++i)
      county.at(i).clock.advance(std::chrono::minutes(60 + 40 * static_cast<int>(dice_.below(4))));
    auto& late = county.at(3).clock;
    auto behind = late.now();
    behind.at.utc -= std::chrono::hours(3);
    late.setWall(behind);
  }

  void step() {
    auto& laptop = county.at(dice_.below(4));
    laptop.clock.advance(std::chrono::minutes(1));
    switch (dice_.below(12)) {
    case 0:
      return travel(laptop);
    case 1:
      return meet(laptop);
    case 2:
    case 3:
      return joinOrPart(laptop);
    case 4:
      return rare(laptop);
    case 5:
      return seen(laptop);
    case 6:
      return settle(laptop);
    case 7:
      return enroll(laptop);
    default:
      return correct(laptop);
    }
  }
  std::vector<base::Path> ends() {
    auto files = backups_;
    files.resize(std::min<std::size_t>(files.size(), 2));
    for (std::size_t i = 0; i < 4; ++i)
      files.push_back(county.at(i).copyTo(county.fresh("end")));
    return files;
  }

  County county{4};
  std::map<std::string, int> done;

 private:
  const base::By& by() { return county.clinic.by; }
  std::string pick() { return numbers_[dice_.below(numbers_.size())]; }
  std::optional<roster::ChildId> some(Computer& on) {
    auto card = on.use().cardNumbered(pick());
    if (!card || !on.use().child(*card)) return {};
    return *card;
  }
  template <class T>
  bool tried(const char* what, const base::Result<T>& result) {
    if (result) return ++done[what] > 0;
    const auto code = result.error().code;
    INFO(what << ": " << base::errorName(code) << ": " << result.error().detail);
    CHECK((base::errorName(code).starts_with("rule.") || code == ErrorCode::notFound ||
           code == ErrorCode::recordChanged || code == ErrorCode::vaultReplaced ||
           code == ErrorCode::textMalformed)); // a number that is another child's
    return false;
  }

  void travel(Computer& laptop) {
    switch (dice_.below(4)) {
    case 0:
      backups_.push_back(laptop.copyTo(county.fresh("backup")));
      break;
    case 1:
      if (!backups_.empty()) {
        laptop.restore(backups_[dice_.below(backups_.size())]);
        ++done["restored"];
      }
      break;
    case 2:
      laptop.close();
      break;
    default: {
      auto& other = county.at(dice_.below(4));
      if (&other == &laptop) return;
      laptop.cloneTo(other);
      // Every other image keeps the machine's identity, so no one can tell the two apart.
      if (dice_.below(2) == 0) other.machine = laptop.machine;
      ++done["cloned"];
    }
    }
  }
  void meet(Computer& laptop) {
    auto& other = county.at(dice_.below(4));
    if (&other == &laptop) return;
    must(test::absorbAll(laptop.use(), by(), other.copyTo(county.fresh("carried")), by()));
    ++done["merged"];
  }
  void joinOrPart(Computer& laptop) {
    const auto card = some(laptop);
    if (!card) return;
    auto& book = laptop.use();
    const auto joins = must(book.joinsOf(*card));
    if (!joins.empty() && dice_.below(2) == 0)
      tried("parted", book.partCards(by(), *card, "two students after all"));
    else if (const auto other = book.cardNumbered(pick()); other && *other != *card)
      tried("joined", book.joinCards(by(), *card, *other, "one student on two cards"));
  }
  void rare(Computer& laptop) {
    auto& book = laptop.use();
    if (dice_.below(2) == 0) {
      if (done["replaced key"] == 2) return; // more than two old passphrases are not all tried
      session::KeyReplacing how{.confirmation = laptop.openedWith,
                                .passphrase = "the words numbered " + std::to_string(words_ + 1),
                                .reason = "somebody left"};
      if (tried("replaced key",
                book.replaceBookKey({county.clinic.coordinator, {}}, std::move(how)))) {
        laptop.openedWith = "the words numbered " + std::to_string(++words_);
        county.passphrases->push_back(laptop.openedWith);
      }
    } else if (done["erased"] < 2) {
      const auto card = some(laptop);
      if (!card) return;
      const auto plan = must(book.erasurePlan(*card));
      tried("erased", book.eraseStudent(by(), *card,
                                        {"the mother, by letter", "state law", "she asked for it"},
                                        plan.total));
    }
  }
  void seen(Computer& laptop) {
    const auto card = some(laptop);
    if (!card) return;
    auto& book = laptop.use();
    const auto day = county.clinic.day;
    if (dice_.below(3) == 0) {
      tried("absent", book.endVisit(by(), {*card, day, chairside::DayEnd::absent, {}, {}}));
      return;
    }
    chairside::Seating seating{
        *card, day, {chairside::Identifier::spokenName, chairside::Identifier::birthDate}};
    for (const auto& flag : must(book.flags(*card)))
      if (chairside::isAlert(flag.value)) seating.heard.push_back(flag.id);
    if (!tried("seated", book.seat(by(), seating))) return;
    tried("screened", book.screen(by(), county.clinic.fourSound(*card)));
  }
  void settle(Computer& laptop) {
    auto& book = laptop.use();
    const auto records = must(book.dayRecords(county.clinic.day));
    const auto sheet = reports::closeOut(records, must(book.names(records)));
    for (const auto& question : sheet.questions) {
      const auto& side = question.sides[dice_.below(question.sides.size())];
      if (side.word) {
        tried("settled", book.settleWords({county.clinic.hygienist, {}}, *side.word));
      } else if (question.child) {
        followup::MergeAnswer answer{.day = county.clinic.day, .child = *question.child};
        answer.other = question.other;
        if (dice_.below(2) == 0) {
          answer.verdict = followup::MergeVerdict::keptOne;
          if (!question.other) answer.kept = side.laptop;
        }
        tried("answered",
              book.answerMerge({county.clinic.hygienist, {}}, answer, session::Confirmed::yes));
      }
      return;
    }
  }
  void enroll(Computer& laptop) {
    // Two laptops may give one number.
    const auto number = roster::withCheckDigit(std::to_string(2000 + dice_.below(4)));
    auto& book = laptop.use();
    const auto entered = book.enrollChild(
        by(),
        {.number = number,
         .birth = {2019, 3},
         .school = county.clinic.school,
         .grade = "2",
         .room = "6",
         .note = {}},
        {.first = "Oddny", .last = "Tidewater", .birth = *base::Date::parse("2019-03-04")},
        session::Confirmed::no, session::Confirmed::yes);
    if (!tried("enrolled", entered)) return;
    tried("form", book.enterConsent(by(), county.clinic.form(*entered)));
    if (std::ranges::find(numbers_, number) == numbers_.end()) numbers_.push_back(number);
  }
  void correct(Computer& laptop) {
    const auto card = some(laptop);
    if (!card) return;
    auto& book = laptop.use();
    const auto now = std::to_string(++corrections_);
    switch (dice_.below(5)) {
    case 0: {
      const auto row = must(book.child(*card));
      tried("moved", book.moveChild(by(), *card, county.clinic.school, row.value.grade,
                                    "room " + now, "moved"));
      break;
    }
    case 1: {
      const auto forms = must(book.consents(*card));
      if (forms.empty()) return;
      auto form = forms.front().value;
      form.note = "note " + now;
      tried("form corrected", book.correctConsent(by(), forms.front(), form, "typed wrong"));
      break;
    }
    case 2: {
      const auto looks = must(book.screenings(*card));
      if (looks.empty()) return;
      auto look = looks.front().value;
      look.note = "look " + now;
      tried("findings corrected", book.correctScreening(by(), looks.front(), look, "looked again"));
      break;
    }
    case 3: {
      const auto is = book.identity(*card);
      if (!is) return;
      auto to = *is;
      to.first = "Anders" + std::string(1, static_cast<char>('a' + dice_.below(26)));
      tried("renamed", book.correctStudent(by(), *card, {to, {}}, "misspelled",
                                           session::Confirmed::no, session::Confirmed::yes));
      break;
    }
    default:
      tried("noted", book.enterFlag(by(), {.child = *card,
                                           .kind = roster::FlagKind::other,
                                           .action = roster::FlagAction::note,
                                           .detail = "note " + now,
                                           .decided = {}}));
    }
  }

  base::SeededRandom dice_;
  std::vector<base::Path> backups_;
  std::vector<std::string> numbers_ = county.numbers();
  int words_ = 0;
  int corrections_ = 0;
};

} // namespace

TEST_CASE("Four laptops that correct, join and separate cards, erase, replace the key, restore, "
          "copy disks and have wrong clocks: any order of merging, and any repetition, says the "
          "same",
          "[case-244]") {
  std::map<std::string, int> done;
  const int rounds = test::rounds(6, 200);
  for (int round = 0; round < rounds; ++round) {
    const auto seed = test::seedOr(700) + static_cast<std::uint64_t>(round);
    INFO("seed " << seed);
    History history(seed);
    for (int step = 0; step < 60; ++step)
      history.step();
    const auto files = history.ends();
    for (const auto& [what, count] : history.done) {
      UNSCOPED_INFO(what << ' ' << count);
      done[what] += count;
    }
    allOrdersAgree(history.county, files, 8);
  }
  if (rounds < 6) return; // too few for everything to come up
  for (const auto* what :
       {"restored", "cloned", "merged", "joined", "parted", "replaced key", "erased", "screened",
        "settled", "enrolled", "moved", "form corrected", "findings corrected", "renamed"}) {
    INFO(what);
    CHECK(done[what] > 0);
  }
}
