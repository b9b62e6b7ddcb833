#include "ui/support/message.h"

#include "base/contract.h"
#include "ui/support/text.h"

namespace gk::ui {

namespace {

using base::ErrorCode;

const QString entryStays = u"Not saved; your entry is still here."_s;
const QString nothingLost = u"Nothing is lost."_s;

/// A rule said no: the book is as it was.
Message rule(const QString& happened, const QString& now) {
  return {happened, entryStays, now};
}

Message malformed(const QString& what) {
  return {what + u" could not be read."_s, entryStays, u"Fix it as described and try again."_s};
}

Message messageOf(ErrorCode code) {
  switch (code) {
  case ErrorCode::fileNotFound:
    return {u"The file is not there."_s, nothingLost, u"Look for it, or choose another."_s};
  case ErrorCode::fileUnreadable:
    return {u"The file cannot be read."_s, nothingLost, u"Check the drive and its permissions."_s};
  case ErrorCode::fileTooLarge:
    return {u"The file is too large."_s, u"Nothing was read."_s,
            u"Check that it is the right file."_s};
  case ErrorCode::fileUnwritable:
    return {u"The file cannot be written."_s, u"The old file is unchanged."_s,
            u"Check the drive and its permissions, or choose another place."_s};
  case ErrorCode::diskFull:
    return {u"The disk is full."_s, u"All earlier entries are safe; this one was not saved."_s,
            u"Free some space, then enter it again."_s};
  case ErrorCode::textMalformed:
    return {u"The text cannot be kept as it is."_s, entryStays,
            u"Fix it as described and try again."_s};
  case ErrorCode::dateMalformed:
    return malformed(u"The date"_s);
  case ErrorCode::numberMalformed:
    return malformed(u"The number"_s);
  case ErrorCode::csvMalformed:
    return malformed(u"The list"_s);
  case ErrorCode::jsonMalformed:
  case ErrorCode::documentMalformed:
    return malformed(u"The setup file"_s);
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
  case ErrorCode::storeForked:
    return {u"One laptop's logbook was used as two copies."_s,
            u"Nothing is lost; neither logbook was changed."_s,
            u"Merge again and join the copies. Do not restore over either."_s};
  case ErrorCode::storeAhead:
    return {u"That logbook has entries of days that have not come."_s,
            u"Nothing was merged; neither logbook was changed."_s,
            u"Check both laptops' clocks, then merge again and say so."_s};
  case ErrorCode::storeErases:
    return {u"That logbook would erase students here."_s,
            u"Nothing was merged; neither logbook was changed."_s,
            u"Find out who decided it before you merge again."_s};
  case ErrorCode::storePart:
    return {u"This logbook has only one school's students."_s, u"Nothing is lost or changed."_s,
            u"Merge it back first, and do this in the whole logbook."_s};
  case ErrorCode::storeInUse:
    return {u"Another program is writing in this logbook."_s, nothingLost,
            u"Close it there, or open this copy for reading only."_s};
  case ErrorCode::storeReadOnly:
    return {u"This logbook is open for reading only."_s, entryStays,
            u"Open it for writing on the laptop that owns it."_s};
  case ErrorCode::storeUnfinished:
    return {u"This logbook was not closed properly."_s, u"Nothing is lost."_s,
            u"Open it once on its own laptop, then try again."_s};
  case ErrorCode::storeBeside:
    return {u"Another program's file is beside the logbook."_s,
            u"Nothing is lost; neither file was touched."_s,
            u"Move that file to another folder, then open the logbook again."_s};
  case ErrorCode::storeWriteFailed:
    return {u"The entry could not be written."_s,
            u"All earlier entries are safe; this one was not saved."_s,
            u"Try again; if it fails twice, switch to paper."_s};
  case ErrorCode::storeMigrationFailed:
    return {u"The logbook could not be updated."_s, u"It is as it was before."_s,
            u"Keep it, and ask for help with the words below."_s};
  case ErrorCode::storeMoved:
    return {u"The logbook's file was moved, deleted or replaced."_s,
            u"Earlier entries are still open here; this one may not be."_s,
            u"Do not close the program. Save the logbook under a new name now: F3, Back up."_s};
  case ErrorCode::storeUnsure:
    return {u"The disk failed at the end of writing."_s,
            u"All earlier entries are safe; this one may be kept or not."_s,
            u"Close and reopen the logbook. Check before you enter it again."_s};
  case ErrorCode::storeClock:
    return {u"This laptop's clock shows a time that no entry can have."_s,
            u"All earlier entries are safe; this one was not saved."_s,
            u"Set the clock, then enter it again."_s};
  case ErrorCode::storeCrowded:
    return {u"There would be too many laptops in this logbook."_s,
            u"All earlier entries are safe; nothing was saved or merged."_s,
            u"Use a laptop that has written in it before, and ask for help."_s};
  case ErrorCode::clockAhead:
    return {u"The laptop's clock may be wrong."_s, entryStays,
            u"Set the date and time, or lock (F12), unlock and confirm that the clock is right."_s};
  case ErrorCode::vaultLocked:
    return {u"The names are locked."_s, nothingLost, u"Unlock with your passphrase."_s};
  case ErrorCode::vaultWrongPassphrase:
    return {u"That is not the passphrase."_s, nothingLost, u"Type it again."_s};
  case ErrorCode::vaultDamaged:
    return {u"The sealed names are damaged."_s, u"Clinical entries are safe; names may be lost."_s,
            u"Restore the last backup. Use numbers until then."_s};
  case ErrorCode::vaultReplaced:
    return {u"The key of the names was replaced on another laptop."_s, nothingLost,
            u"Lock (F12), then unlock with the new passphrase."_s};
  case ErrorCode::vaultWait:
    return {u"That passphrase was wrong several times."_s, nothingLost,
            u"Wait as shown below, then type it again."_s};
  case ErrorCode::papersUnreadable:
    return {u"These papers do not open."_s, u"Nothing was written."_s,
            u"Open them with the logbook they were exported from, or export them again."_s};
  case ErrorCode::envelopeUnreadable:
    return {u"This day envelope does not open."_s, u"Nothing was changed."_s,
            u"Type its passphrase again, or fetch the envelope again."_s};
  case ErrorCode::envelopeTaken:
    return {u"This day envelope was merged or sealed here already."_s, u"Nothing was changed."_s,
            u"Nothing is left to do with it."_s};
  case ErrorCode::recordChanged:
    return rule(u"This was changed after it was shown here."_s,
                u"Review the current entry, then correct that one."_s);
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
    return rule(u"There is no valid consent for this."_s,
                u"Do not continue. The reason is below."_s);
  case ErrorCode::ruleConsentForm:
    return rule(u"The form cannot be entered as it is."_s,
                u"Fix it as described, or enter it as incomplete."_s);
  case ErrorCode::ruleCredential:
    return rule(u"Only someone with that right may do this."_s,
                u"Select that person, then try again."_s);
  case ErrorCode::ruleDate:
    return rule(u"The date does not fit."_s, u"Check the date and give the reason."_s);
  case ErrorCode::ruleIdentity:
    return rule(u"The child's identity is not confirmed."_s, u"Ask again, and confirm both."_s);
  case ErrorCode::ruleTooth:
    return rule(u"The tooth does not allow that."_s, u"Change what was found or chosen."_s);
  case ErrorCode::ruleStep:
    return rule(u"That step is not next."_s, u"Do the step that is shown."_s);
  case ErrorCode::ruleCure:
    return rule(u"That cure does not count."_s, u"Cure again in full."_s);
  case ErrorCode::ruleMaterial:
    return rule(u"This material cannot be used."_s, u"Choose another lot."_s);
  case ErrorCode::ruleAllergy:
    return rule(u"ALLERGY."_s, u"Do not use this material on this child."_s);
  case ErrorCode::ruleAuthorization:
    return rule(u"A dentist has not authorized that."_s,
                u"Call the dentist and record the call, or leave the tooth."_s);
  case ErrorCode::ruleLight:
    return rule(u"This light or its meter reading is in question."_s, u"The reason is below."_s);
  case ErrorCode::ruleVarnish:
    return rule(u"Varnish cannot be applied now."_s, u"The reason is below."_s);
  case ErrorCode::ruleOutcome:
    return rule(u"This outcome does not fit the day."_s, u"Choose another outcome."_s);
  case ErrorCode::rulePaper:
    return rule(u"The paper sheet does not fit."_s, u"Compare it with the sheet in hand."_s);
  case ErrorCode::ruleCheck:
    return rule(u"The check does not fit the placement."_s, u"Look again at what was answered."_s);
  case ErrorCode::ruleReferral:
    return rule(u"The referral is not valid."_s, u"The reason is below."_s);
  case ErrorCode::ruleDayOpen:
    return rule(u"The day does not allow that."_s,
                u"A signed day changes at the close-out, F3: Reopen day or Late entry."_s);
  case ErrorCode::ruleSignature:
    return rule(u"This signature is not complete."_s,
                u"Each person enters their own passphrase; it is set on the Team page."_s);
  case ErrorCode::ruleReason:
    return rule(u"This needs a reason."_s, u"Give the reason in a few words."_s);
  case ErrorCode::ruleSameChild:
    return rule(u"This student may be on the roster already."_s,
                u"Open the card named below, or confirm that it is a different student."_s);
  case ErrorCode::ruleSeriousFinding:
    return rule(u"That answer drops a serious finding."_s,
                u"Keep the other visit, answer that both happened, or confirm."_s);
  case ErrorCode::ruleSmallCounts:
    return {u"This report may not be issued."_s, u"Nothing was issued, saved or lost."_s,
            u"What you can do is below."_s};
  case ErrorCode::letterTemplate:
    return {u"A letter's or form's template cannot be used as it is."_s, u"Nothing was printed."_s,
            u"Fix the file at the place named below, or move it away."_s};
  case ErrorCode::estimateInput:
    return {u"The estimate cannot be made."_s, nothingLost, u"Check the numbers entered."_s};
  case ErrorCode::callMalformed:
    return rule(u"Something is missing or too long."_s, u"The field is named below."_s);
  case ErrorCode::workCanceled:
    return {u"Canceled."_s, u"Nothing was changed."_s, u"Start it again when you want."_s};
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
