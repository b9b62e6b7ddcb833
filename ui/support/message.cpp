#include "ui/support/message.h"

#include "base/contract.h"
#include "ui/support/text.h"

namespace gk::ui {

namespace {

using base::ErrorCode;

const QString entryStays = u"This was not written; your entry is still here."_s;
const QString nothingLost = u"Nothing is lost."_s;

/// A rule said no: the book is as it was.
Message rule(const QString& happened, const QString& now) {
  return {happened, entryStays, now};
}

Message malformed(const QString& what) {
  return {what + u" could not be read."_s, entryStays, u"Mend it as said and try again."_s};
}

Message messageOf(ErrorCode code) {
  switch (code) {
  case ErrorCode::fileNotFound:
    return {u"The file is not there."_s, nothingLost, u"Look for it, or choose another."_s};
  case ErrorCode::fileUnreadable:
    return {u"The file cannot be read."_s, nothingLost, u"Check the drive and its permissions."_s};
  case ErrorCode::fileTooLarge:
    return {u"The file is too large."_s, u"Nothing was read."_s,
            u"Look whether it is the right file."_s};
  case ErrorCode::fileUnwritable:
    return {u"The file cannot be written."_s, u"The old file is unchanged."_s,
            u"Check the drive and its permissions, or choose another place."_s};
  case ErrorCode::diskFull:
    return {u"The disk is full."_s, u"All earlier entries are safe; this one was not written."_s,
            u"Free some space, then enter it again."_s};
  case ErrorCode::textMalformed:
    return malformed(u"The text"_s);
  case ErrorCode::dateMalformed:
    return malformed(u"The date"_s);
  case ErrorCode::numberMalformed:
    return malformed(u"The number"_s);
  case ErrorCode::csvMalformed:
    return malformed(u"The list"_s);
  case ErrorCode::toothMalformed:
    return malformed(u"The tooth"_s);
  case ErrorCode::surfaceMalformed:
    return malformed(u"The surfaces"_s);
  case ErrorCode::storeNotALogbook:
    return {u"This file is not a logbook."_s, u"The file was not touched."_s,
            u"Choose the logbook, a file that ends in .gkbook."_s};
  case ErrorCode::storeNewerSchema:
    return {u"This logbook was written by a newer Groovekeeper."_s, u"The file was not touched."_s,
            u"Open it with the newer program."_s};
  case ErrorCode::storeDamaged:
    return {u"The logbook is damaged."_s, u"Entries may be missing; the file was not changed."_s,
            u"Stop, use paper, and restore the last backup."_s};
  case ErrorCode::storeInUse:
    return {u"Another program is writing in this logbook."_s, nothingLost,
            u"Close it there, or open this copy for reading only."_s};
  case ErrorCode::storeReadOnly:
    return {u"This logbook is open for reading only."_s, entryStays,
            u"Open it for writing on the laptop that owns it."_s};
  case ErrorCode::storeWriteFailed:
    return {u"The entry could not be written."_s,
            u"All earlier entries are safe; this one was not written."_s,
            u"Try again; if it fails twice go on with paper."_s};
  case ErrorCode::storeMigrationFailed:
    return {u"The logbook could not be brought up to date."_s, u"It is as it was before."_s,
            u"Keep it, and ask for help with the words below."_s};
  case ErrorCode::storeMoved:
    return {u"The logbook's file was moved, deleted or replaced."_s,
            u"What was written before is still open here; this was not written."_s,
            u"Do not close the program. Save the logbook under a new name now: F3, Back up."_s};
  case ErrorCode::storeUnsure:
    return {u"The disk failed at the end of writing."_s,
            u"All earlier entries are safe; this one may be kept or not."_s,
            u"Close the logbook, open it again and look before you enter it once more."_s};
  case ErrorCode::storeClock:
    return {u"This laptop's clock shows a time that no entry can have."_s,
            u"All earlier entries are safe; this one was not written."_s,
            u"Set the clock, then enter it again."_s};
  case ErrorCode::storeCrowded:
    return {u"This logbook has no place for one more laptop."_s,
            u"All earlier entries are safe; this one was not written."_s,
            u"Go on with a laptop that has written in it before, and ask for help."_s};
  case ErrorCode::clockAhead:
    return {u"The laptop's clock may be wrong."_s, entryStays,
            u"Set the date and time, or lock (F12), unlock and say that the clock is right."_s};
  case ErrorCode::vaultLocked:
    return {u"The names are locked."_s, nothingLost, u"Unlock with your passphrase."_s};
  case ErrorCode::vaultWrongPassphrase:
    return {u"That is not the passphrase."_s, nothingLost, u"Type it again."_s};
  case ErrorCode::vaultDamaged:
    return {u"The sealed names are damaged."_s, u"Clinical entries are safe; names may be lost."_s,
            u"Restore the last backup, and go on by numbers until then."_s};
  case ErrorCode::recordChanged:
    return rule(u"This was changed after it was shown here."_s,
                u"Look at it as it is now, then correct that."_s);
  case ErrorCode::pinMalformed:
    return {u"That cannot be a PIN."_s, nothingLost,
            u"Choose 4 to 6 digits, none easy to guess."_s};
  case ErrorCode::pinNeeded:
    return {u"A PIN is needed for this."_s, entryStays,
            u"To sign in, lock (F12) and unlock with your PIN."_s};
  case ErrorCode::pinWrong:
    return {u"That is not the PIN."_s, nothingLost, u"Wait a moment and type it again."_s};
  case ErrorCode::pinWait:
    return {u"Too soon after a wrong PIN."_s, nothingLost, u"Wait, then type it again."_s};
  case ErrorCode::pinSpent:
    return {u"The passphrase is needed now."_s, nothingLost, u"Unlock with the passphrase."_s};
  case ErrorCode::notFound:
    return {u"It is not in this logbook."_s, nothingLost, u"Check what you asked for."_s};
  case ErrorCode::ruleBirthDate:
    return rule(u"The birth date cannot be right."_s, u"Check it against the form."_s);
  case ErrorCode::ruleConsent:
    return rule(u"There is no valid consent for this."_s, u"Do not go on; read why below."_s);
  case ErrorCode::ruleConsentForm:
    return rule(u"The form does not count as a yes."_s, u"Enter it as incomplete, or fix it."_s);
  case ErrorCode::ruleCredential:
    return rule(u"This person may not do that."_s, u"Let someone entitled do it."_s);
  case ErrorCode::ruleDate:
    return rule(u"The date does not fit."_s, u"Check the date and give the reason."_s);
  case ErrorCode::ruleIdentity:
    return rule(u"Who this is has not been made sure."_s, u"Ask again, and confirm both."_s);
  case ErrorCode::ruleTooth:
    return rule(u"The tooth does not allow that."_s, u"Change what was found or chosen."_s);
  case ErrorCode::ruleStep:
    return rule(u"That step does not come now."_s, u"Do the step that is shown."_s);
  case ErrorCode::ruleCure:
    return rule(u"That cure does not count."_s, u"Cure again in full."_s);
  case ErrorCode::ruleMaterial:
    return rule(u"This material cannot be used."_s, u"Choose another lot."_s);
  case ErrorCode::ruleAllergy:
    return rule(u"STOP: allergy."_s, u"Do not use this material on this child."_s);
  case ErrorCode::ruleAuthorization:
    return rule(u"A dentist has not authorized that."_s,
                u"Call the dentist and record the call, or leave the tooth."_s);
  case ErrorCode::ruleLight:
    return rule(u"This light, or what its meter reads, is in doubt."_s, u"Read why below."_s);
  case ErrorCode::ruleVarnish:
    return rule(u"Varnish does not come now."_s, u"Read why below."_s);
  case ErrorCode::ruleOutcome:
    return rule(u"This outcome does not fit the day."_s, u"Choose another outcome."_s);
  case ErrorCode::rulePaper:
    return rule(u"The paper sheet does not fit."_s, u"Compare it with the sheet in hand."_s);
  case ErrorCode::ruleCheck:
    return rule(u"The check does not fit the placement."_s, u"Look again at what was answered."_s);
  case ErrorCode::ruleReferral:
    return rule(u"The referral cannot be so."_s, u"Read why below."_s);
  case ErrorCode::ruleDayOpen:
    return rule(u"The day does not allow that."_s,
                u"A signed day changes at the close-out, F3: Reopen day or Late entry."_s);
  case ErrorCode::ruleReason:
    return rule(u"This needs a reason."_s, u"Say why, in a few words."_s);
  case ErrorCode::ruleSameChild:
    return rule(u"This child may be on the roster already."_s,
                u"Open the card named below, or confirm that it is another child."_s);
  case ErrorCode::ruleSeriousFinding:
    return rule(u"That answer drops a serious finding."_s,
                u"Keep the other visit, answer that both happened, or confirm."_s);
  case ErrorCode::ruleSmallCounts:
    return {u"This report may not go out."_s, u"Nothing was issued, saved or lost."_s,
            u"Read below what can be done."_s};
  case ErrorCode::letterTemplate:
    return {u"A letter's template cannot be used as it is."_s, u"No letter was printed."_s,
            u"Mend the file at the place named below, or move it away."_s};
  case ErrorCode::estimateInput:
    return {u"The estimate cannot be made."_s, nothingLost, u"Check the numbers put in."_s};
  case ErrorCode::callMalformed:
    return rule(u"Something is missing or too long."_s, u"Read which below."_s);
  case ErrorCode::workCancelled:
    return {u"Canceled."_s, u"Nothing was changed."_s, u"Start it again when you want it."_s};
  }
  base::fail("no such error");
}

} // namespace

Message describe(const base::Error& error) {
  Message message = messageOf(error.code);
  message.detail = capital(toQt(error.detail));
  message.bookMoved = error.code == ErrorCode::storeMoved;
  return message;
}

QString inOneLine(const Message& message) {
  QString line = message.happened + u' ' + message.detail;
  if (!message.detail.isEmpty() && !line.endsWith(u'.')) line += u'.';
  return (line + u' ' + message.now + u' ' + message.lost).simplified();
}

} // namespace gk::ui
