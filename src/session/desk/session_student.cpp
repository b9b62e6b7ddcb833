#include "base/text/text.h"
#include "session/reader_held.h"
#include "session/session_write.h"

#include <algorithm>
#include <set>

// Who a student is, said again: the names and boxes from before stay in the history.
namespace gk::session {

using base::Error;
using base::ErrorCode;

namespace {

constexpr std::size_t leastLetters = 3; ///< "Al" is a word of too many sentences
constexpr int phoneDigits = 7;          ///< a number without its area code

void addWords(std::set<std::string>& into, const std::string& text) {
  const auto folded = base::folded(text);
  for (const auto word : base::split(folded, ' '))
    if (word.size() >= leastLetters) into.emplace(word);
}

} // namespace

bool namesSomebody(const std::string& text, const Identity& before, const Identity& now) {
  std::set<std::string> names;
  for (const auto* one : {&before, &now}) {
    addWords(names, one->legalName() + " " + one->nameUsed);
    for (const auto& guardian : one->guardians)
      addWords(names, guardian.name);
  }
  // Marks between words part them; an apostrophe within one does not.
  std::string plain;
  for (const char c : text)
    plain +=
        c == ',' || c == ';' || c == ':' || c == '(' || c == ')' || c == '"' || c == '/' ? ' ' : c;
  std::set<std::string> said;
  addWords(said, plain);
  return std::ranges::any_of(said, [&](const auto& word) { return names.contains(word); });
}

namespace {

/// The reason is not sealed, so it may not say what is.
bool tellsWho(const std::string& reason, const Identity& before, const Identity& now) {
  int digits = 0;
  for (const char c : reason) {
    if (c >= '0' && c <= '9') ++digits;
  }
  return namesSomebody(reason, before, now) || digits >= phoneDigits;
}

} // namespace

Result<base::Done> DeskVerbs::correctStudent(By by, roster::ChildId child,
                                             const StudentDetails& details,
                                             const std::string& reason, Confirmed schoolConfirmsAge,
                                             Confirmed isAnother) {
  const auto may = admit(Verb::correctStudent, by, {.child = child, .reason = reason});
  if (!may) return may.error();
  if (!vault_) return Error{ErrorCode::vaultLocked, "unlock the logbook to correct a student"};
  if (const auto newest = sealsWithNewest(); !newest) return newest.error();
  const auto card = this->child(child);
  if (!card) return card.error();
  auto known = this->identity(child);
  // What cannot be read is entered again.
  const bool isAnew = !known && known.error().code == ErrorCode::vaultDamaged;
  if (!known && !isAnew) return known.error();
  const auto before = isAnew ? Identity{.birth = details.identity.birth} : std::move(*known);
  auto now = details.identity;
  for (auto* text : {&now.first, &now.middle, &now.last, &now.nameUsed})
    *text = std::string(base::trim(*text));
  if (const auto named = vault::checkIdentity(now); !named) return named.error();
  if (tellsWho(reason, before, now))
    return Error{ErrorCode::textMalformed,
                 "the reason is kept where everyone can read it: say it without a name or a phone "
                 "number"};
  if (isAnew || now.birth != before.birth) {
    const auto today = world_.clock.now().date();
    const auto verdict = roster::judgeBirthDate(now.birth, card->value.grade, today);
    if (verdict == roster::BirthVerdict::impossible)
      return Error{ErrorCode::ruleBirthDate,
                   "born " + now.birth.words() + " would not be 3 to 19 years old; check the year"};
    if (verdict == roster::BirthVerdict::askUnusualForGrade && schoolConfirmsAge == Confirmed::no)
      return Error{ErrorCode::ruleBirthDate, "born " + now.birth.words() +
                                                 " is unusual for grade " + card->value.grade +
                                                 "; ask the school and confirm"};
  }
  const auto was = personOf(before);
  const auto is = personOf(now);
  const bool isRenamed = was.legal != is.legal || was.called != is.called || was.birth != is.birth;
  if (isRenamed && isAnother == Confirmed::no) {
    const auto near = nearMatches(card->value.number, now);
    if (!near) return near.error();
    for (const auto& one : *near)
      if (one.child.child != child && one.why != roster::Likeness::number &&
          roster::isTooAlike(one.why))
        return Error{ErrorCode::ruleSameChild,
                     "number " + one.child.number + " has " + std::string(roster::words(one.why)) +
                         ". Open that card, or confirm that it is a different student"};
  }
  auto boxes = book_.current<store::SealedIdentity>(store::rowsOf("child", child));
  if (!boxes) return boxes.error();
  auto corrected = card->value;
  corrected.birth = {now.birth.year(), now.birth.month()};
  corrected.sex = details.sex;
  return write(*may, child, [&](store::Act& act) {
    const auto sealed = vault_->seal(book_.enteredAs(child.uuid()), now, world_.random);
    replaceAll(act, *boxes, store::SealedIdentity{child, sealed.nonce, sealed.box}, reason);
    if (corrected != card->value) act.correct(*card, corrected, reason);
    return base::Done{};
  });
}

} // namespace gk::session
