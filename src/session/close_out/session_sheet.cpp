#include "base/bytes.h"
#include "base/text/printed_code.h"
#include "base/text/text.h"
#include "crypto/digest.h"
#include "reports/day/close_out.h"
#include "session/reader_held.h"
#include "session/session_write.h"

#include <algorithm>

// What is signed: a day at close-out, and an erasure; and the code that a sheet carries of it.
namespace gk::session {

using base::Error;
using base::ErrorCode;
using roster::Capacity;
using roster::DayClosure;
using roster::DaySignature;

namespace {

std::string lengthOf(std::size_t value) {
  std::string bytes;
  for (unsigned i = 0; i < 8; ++i)
    bytes += static_cast<char>(static_cast<std::uint64_t>(value) >> (8 * i) & 0xFFU);
  return bytes;
}

roster::SignedCounts countsOf(const reports::DayEquation& sums) {
  return {.consented = sums.consented,
          .screened = sums.screened,
          .absent = sums.absent,
          .declined = sums.declined,
          .left = sums.left,
          .withdrawn = sums.withdrawn,
          .onHold = sums.onHold,
          .notReached = sums.notReached};
}

std::string sheetCode(store::Book& book, const Recorded<DayClosure>& closure,
                      const std::vector<Recorded<DaySignature>>& signatures) {
  const auto entered = [&](const base::Uuid& id) { return book.enteredAs(id); };
  std::vector<const Recorded<DaySignature>*> own;
  for (const auto& row : signatures)
    if (row.value.closure == closure.id) own.push_back(&row);
  if (own.empty()) return {}; // signed before there were signatures
  std::ranges::stable_sort(own, {}, [](const auto* row) { return row->value.capacity; });
  crypto::Hasher hasher;
  hasher.add("groovekeeper sheet 1");
  for (const auto* row : own)
    for (const auto& part :
         {signedBytes(book.identity(), closure.value, row->value, row->stamp.at, entered),
          row->value.signature}) {
      hasher.add(lengthOf(part.size()));
      hasher.add(base::textOf(part));
    }
  return base::printedCode(hasher.finish(), base::sheetCodeShape);
}

} // namespace

bool SignedSheet::stands() const {
  return isCurrent && counts == countsNow &&
         std::ranges::all_of(lines, [](const auto& line) { return line.flaw.empty(); });
}

std::map<roster::ClosureId, std::string>
sheetCodes(store::Book& book, const std::vector<Recorded<DayClosure>>& closures,
           const std::vector<Recorded<DaySignature>>& signatures) {
  std::map<roster::ClosureId, std::string> codes;
  for (const auto& closure : closures)
    codes.emplace(closure.id, sheetCode(book, closure, signatures));
  return codes;
}

Result<base::Done> KeyVerbs::canSign(const DayClosure& closure) {
  for (const auto who : {closure.clinical, closure.coordinator}) {
    const auto asked = asksToSign(who);
    if (!asked) return asked.error();
    if (*asked == SignerGives::nothing) continue;
    const auto member = only<roster::Member>(store::subjectIs(who), "team member");
    if (!member) return member.error();
    switch (*asked) {
    case SignerGives::nothing:
    case SignerGives::passphrase:
      return Error{ErrorCode::ruleSignature, member->value.name +
                                                 " signs with their own passphrase; it was not "
                                                 "entered today, or not for this signature"};
    case SignerGives::pin:
      return Error{ErrorCode::pinNeeded, member->value.name +
                                             " confirms this signature with their own PIN; no one "
                                             "signs for another person"};
    case SignerGives::newPassphrase:
      return Error{ErrorCode::ruleSignature, member->value.name +
                                                 " had a key that was revoked and must set a new "
                                                 "passphrase before signing"};
    }
  }
  return base::Done{};
}

Result<roster::ClosureId> KeyVerbs::writeSigned(const Admission& may, const DayClosure& closure,
                                                const reports::DayEquation& sums) {
  const auto chains = book_.chains();
  if (!chains) return chains.error();
  const auto entered = [&](const base::Uuid& id) { return book_.enteredAs(id); };
  auto written = write(may, {}, [&](store::Act& act) {
    const auto id = act.add(closure);
    for (const auto& [capacity, signer] : {std::pair(Capacity::clinical, closure.clinical),
                                           {Capacity::completeness, closure.coordinator}}) {
      const auto open = held_->keys.find(signer);
      DaySignature signature{.day = closure.day,
                             .closure = id,
                             .signer = signer,
                             .capacity = capacity,
                             .key = {},
                             .counts = countsOf(sums),
                             .schema = chains->schema,
                             .heads = chains->heads};
      if (open != held_->keys.end()) {
        signature.key = open->second.id;
        signature.signature =
            open->second.key.sign(signedBytes(chains->book, closure, signature, act.at(), entered));
      }
      act.add(signature);
    }
    return id;
  });
  if (written) // for this one alone
    for (const auto signer : {closure.clinical, closure.coordinator})
      held_->shown.erase(signer);
  return written;
}

Result<base::Done> KeyVerbs::canSignErasure(const Admission& may) {
  if (!may.by().author) return base::Done{};
  const auto asked = asksToSign(*may.by().author);
  if (!asked) return asked.error();
  switch (*asked) {
  case SignerGives::nothing:
    return base::Done{};
  case SignerGives::pin:
    if (may.usesPin()) return base::Done{};
    return Error{ErrorCode::pinNeeded, "the person who erases confirms it with their own PIN"};
  case SignerGives::passphrase:
    return Error{
        ErrorCode::ruleSignature,
        "the person who erases signs with their own passphrase; it was not entered today, or "
        "not for this signature. Nothing was erased"};
  case SignerGives::newPassphrase:
    return Error{ErrorCode::ruleSignature,
                 "the person who erases had a key that was revoked and must set "
                 "a new passphrase before signing. Nothing was erased"};
  }
  return base::Done{};
}

void KeyVerbs::signErasure(roster::Erasure& erasure, base::By by, base::LocalInstant at) {
  if (!by.author) return;
  const auto open = held_->keys.find(*by.author);
  if (open == held_->keys.end()) return;
  open->second.awaken(); // canSignErasure admitted it
  erasure.key = open->second.id;
  erasure.signature =
      open->second.key.sign(signedBytes(book_.identity(), erasure, by.author, at,
                                        [&](const base::Uuid& id) { return book_.enteredAs(id); }));
}

Result<SignedSheet> KeyVerbs::signedSheet(const std::string& code) {
  const auto read = base::readCode(code, base::sheetCodeShape);
  if (!read) return read.error();
  auto closures = book_.history<DayClosure>(store::everything());
  if (!closures) return closures.error();
  auto signatures = book_.history<DaySignature>(store::everything());
  if (!signatures) return signatures.error();
  const auto codes = sheetCodes(book_, *closures, *signatures);
  const auto found = std::ranges::find_if(
      *closures, [&](const auto& closure) { return codes.at(closure.id) == *read; });
  if (found == closures->end())
    return Error{ErrorCode::notFound,
                 "no day in this logbook was signed under that code: the sheet is from another "
                 "logbook, or the signed day is no longer in this one"};
  const auto records = dayRecords(found->value.day);
  if (!records) return records.error();
  const auto judged = book_.signatures(found->value.day);
  if (!judged) return judged.error();
  SignedSheet sheet{.day = found->value.day,
                    .school = records->school.name,
                    .date = records->day.date,
                    .signedAt = found->stamp.at,
                    .lines = {},
                    .counts = {},
                    .countsNow = countsOf(reports::closeOut(*records).equation),
                    .isCurrent = std::ranges::any_of(
                        records->closures, [&](const auto& row) { return row.id == found->id; }),
                    .lateEntries = static_cast<int>(records->addenda.size())};
  for (const auto& one : *judged) {
    if (one.row.value.closure != found->id) continue;
    const auto member = book_.history<roster::Member>(store::subjectIs(one.row.value.signer));
    if (!member) return member.error();
    sheet.counts = one.row.value.counts;
    sheet.lines.push_back({member->empty() ? "someone" : member->back().value.name,
                           one.row.value.capacity, !one.row.value.key, one.flaw, one.revoked});
  }
  return sheet;
}

} // namespace gk::session
