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
GK_RECORD(followup::IssuedReport)

} // namespace gk::store
