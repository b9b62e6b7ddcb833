#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace gk::base {

/// Every kind of expected trouble. Closed and stable: each has a name (`errorName`) and a
/// paragraph in docs/errors.md; a test checks that the two agree.
enum class ErrorCode {
  fileNotFound,
  fileUnreadable,
  fileUnwritable,
  fileTooLarge,
  diskFull,
  textMalformed,
  dateMalformed,
  numberMalformed,
  csvMalformed,
  jsonMalformed,
  documentMalformed,
  toothMalformed,
  surfaceMalformed,
  storeNotALogbook,
  storeNewerSchema,
  storeDamaged,
  storeForked,
  storeAhead,
  storeErases,
  storePart,
  storeInUse,
  storeReadOnly,
  storeUnfinished,
  storeBeside,
  storeWriteFailed,
  storeMigrationFailed,
  storeMoved,
  storeUnsure,
  storeClock,
  storeCrowded,
  clockAhead,
  vaultLocked,
  vaultWrongPassphrase,
  vaultDamaged,
  vaultReplaced,
  pinMalformed,
  pinNeeded,
  pinWrong,
  pinWait,
  pinSpent,
  vaultWait,
  papersUnreadable,
  envelopeUnreadable,
  envelopeTaken,
  notFound,
  recordChanged,
  ruleBirthDate,
  ruleConsent,
  ruleConsentForm,
  ruleCredential,
  ruleDate,
  ruleIdentity,
  ruleTooth,
  ruleStep,
  ruleCure,
  ruleMaterial,
  ruleAllergy,
  ruleAuthorization,
  ruleLight,
  ruleVarnish,
  ruleOutcome,
  rulePaper,
  ruleCheck,
  ruleReferral,
  ruleDayOpen,
  ruleSignature,
  ruleReason,
  ruleSameChild,
  ruleSeriousFinding,
  ruleSmallCounts,
  letterTemplate,
  estimateInput,
  callMalformed,
  workCanceled,
};

/// The stable public name, such as "store.newer-schema".
std::string_view errorName(ErrorCode code);

/// Every code, in the order of the enumeration.
const std::vector<ErrorCode>& allErrorCodes();

/// What went wrong. `detail` says what, where and how to fix it, and never holds a child's name.
struct Error {
  ErrorCode code;
  std::string detail;

  bool operator==(const Error&) const = default;
};

} // namespace gk::base
