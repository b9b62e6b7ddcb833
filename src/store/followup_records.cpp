#include "store/closing_rows.h"
#include "store/followup_rows.h"
#include "store/record_io.h"

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
