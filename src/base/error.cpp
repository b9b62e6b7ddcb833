#include "base/error.h"

#include "base/contract.h"

#include <array>
#include <utility>

namespace gk::base {

namespace {

using Entry = std::pair<ErrorCode, std::string_view>;

constexpr auto names = std::to_array<Entry>({
    {ErrorCode::fileNotFound, "file.not-found"},
    {ErrorCode::fileUnreadable, "file.unreadable"},
    {ErrorCode::fileUnwritable, "file.unwritable"},
    {ErrorCode::fileTooLarge, "file.too-large"},
    {ErrorCode::diskFull, "file.disk-full"},
    {ErrorCode::textMalformed, "input.text"},
    {ErrorCode::dateMalformed, "input.date"},
    {ErrorCode::numberMalformed, "input.number"},
    {ErrorCode::csvMalformed, "input.csv"},
    {ErrorCode::jsonMalformed, "input.json"},
    {ErrorCode::documentMalformed, "input.document"},
    {ErrorCode::toothMalformed, "input.tooth"},
    {ErrorCode::surfaceMalformed, "input.surface"},
    {ErrorCode::storeNotALogbook, "store.not-a-logbook"},
    {ErrorCode::storeNewerSchema, "store.newer-schema"},
    {ErrorCode::storeDamaged, "store.damaged"},
    {ErrorCode::storeForked, "store.forked"},
    {ErrorCode::storeAhead, "store.ahead"},
    {ErrorCode::storeErases, "store.erases"},
    {ErrorCode::storePart, "store.part"},
    {ErrorCode::storeInUse, "store.in-use"},
    {ErrorCode::storeReadOnly, "store.read-only"},
    {ErrorCode::storeUnfinished, "store.unfinished"},
    {ErrorCode::storeBeside, "store.beside"},
    {ErrorCode::storeWriteFailed, "store.write-failed"},
    {ErrorCode::storeMigrationFailed, "store.migration-failed"},
    {ErrorCode::storeMoved, "store.moved"},
    {ErrorCode::storeUnsure, "store.unsure"},
    {ErrorCode::storeClock, "store.clock"},
    {ErrorCode::storeCrowded, "store.crowded"},
    {ErrorCode::clockAhead, "clock.ahead"},
    {ErrorCode::vaultLocked, "vault.locked"},
    {ErrorCode::vaultWrongPassphrase, "vault.wrong-passphrase"},
    {ErrorCode::vaultDamaged, "vault.damaged"},
    {ErrorCode::vaultReplaced, "vault.replaced"},
    {ErrorCode::pinMalformed, "pin.malformed"},
    {ErrorCode::pinNeeded, "pin.needed"},
    {ErrorCode::pinWrong, "pin.wrong"},
    {ErrorCode::pinWait, "pin.wait"},
    {ErrorCode::pinSpent, "pin.spent"},
    {ErrorCode::vaultWait, "vault.wait"},
    {ErrorCode::papersUnreadable, "papers.unreadable"},
    {ErrorCode::envelopeUnreadable, "envelope.unreadable"},
    {ErrorCode::envelopeTaken, "envelope.taken"},
    {ErrorCode::notFound, "record.not-found"},
    {ErrorCode::recordChanged, "record.changed"},
    {ErrorCode::ruleBirthDate, "rule.birth-date"},
    {ErrorCode::ruleConsent, "rule.consent"},
    {ErrorCode::ruleConsentForm, "rule.consent-form"},
    {ErrorCode::ruleCredential, "rule.credential"},
    {ErrorCode::ruleDate, "rule.date"},
    {ErrorCode::ruleIdentity, "rule.identity"},
    {ErrorCode::ruleTooth, "rule.tooth"},
    {ErrorCode::ruleStep, "rule.step"},
    {ErrorCode::ruleCure, "rule.cure"},
    {ErrorCode::ruleMaterial, "rule.material"},
    {ErrorCode::ruleAllergy, "rule.allergy"},
    {ErrorCode::ruleAuthorization, "rule.authorization"},
    {ErrorCode::ruleLight, "rule.light"},
    {ErrorCode::ruleVarnish, "rule.varnish"},
    {ErrorCode::ruleOutcome, "rule.outcome"},
    {ErrorCode::rulePaper, "rule.paper"},
    {ErrorCode::ruleCheck, "rule.check"},
    {ErrorCode::ruleReferral, "rule.referral"},
    {ErrorCode::ruleDayOpen, "rule.day-open"},
    {ErrorCode::ruleSignature, "rule.signature"},
    {ErrorCode::ruleReason, "rule.reason"},
    {ErrorCode::ruleSameChild, "rule.same-child"},
    {ErrorCode::ruleSeriousFinding, "rule.serious-finding"},
    {ErrorCode::ruleSmallCounts, "rule.small-counts"},
    {ErrorCode::letterTemplate, "letter.template"},
    {ErrorCode::estimateInput, "estimate.input"},
    {ErrorCode::callMalformed, "call.malformed"},
    {ErrorCode::workCanceled, "work.cancelled"},
});

} // namespace

std::string_view errorName(ErrorCode code) {
  for (const auto& [known, name] : names)
    if (known == code) return name;
  fail("an error code without a name");
}

const std::vector<ErrorCode>& allErrorCodes() {
  static const std::vector<ErrorCode> codes = [] {
    std::vector<ErrorCode> all;
    all.reserve(names.size());
    for (const auto& entry : names)
      all.push_back(entry.first);
    return all;
  }();
  return codes;
}

} // namespace gk::base
