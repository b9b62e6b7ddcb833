#include "followup/paper_count.h"

namespace gk::followup {

base::Result<base::Done> checkPaper(const PaperCount& count) {
  if (count.out < 0 || count.back < 0 || count.handed < 0 || count.shredded < 0)
    return base::Error{base::ErrorCode::numberMalformed, "a count of sheets cannot be below zero"};
  return base::Done{};
}

} // namespace gk::followup
