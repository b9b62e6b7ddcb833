#include "store/entries/record_io.h"
#include "store/records/closing_rows.h"
#include "store/records/followup_rows.h"

namespace gk::store {

GK_RECORD(followup::RetentionCheck)
GK_RECORD(followup::Referral)
GK_RECORD(followup::ContactAttempt)
GK_RECORD(followup::Letter)
GK_RECORD(followup::Incident)
GK_RECORD(followup::PaperCount)
GK_RECORD(followup::BackupNote)
GK_RECORD(followup::MergeAnswer)
GK_RECORD(followup::MergeNote)
GK_RECORD(followup::IssuedReport)

void Rows<followup::MergeNote>::writeParts(Connection& connection, base::EntryId entry,
                                           const followup::MergeNote& note) {
  int place = 0;
  for (const auto& one : note.from)
    connection
        .prepare("INSERT INTO merge_note_laptop (entry, place, laptop, entries, sequence) VALUES "
                 "(?, ?, ?, ?, ?)")
        .bindAll(entry, place++, one.laptop, one.entries, one.sequence)
        .run();
}

void Rows<followup::MergeNote>::readParts(Connection& connection, base::EntryId entry,
                                          followup::MergeNote& note) {
  eachPart(connection,
           "SELECT laptop, entries, sequence FROM merge_note_laptop WHERE entry = ?1 ORDER BY "
           "place",
           entry, [&](RowReader& row) {
             note.from.push_back({.laptop = row, .entries = row, .sequence = row});
           });
}

} // namespace gk::store
