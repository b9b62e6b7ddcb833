#include "followup/letter.h"

namespace gk::followup {

Letter moved(Letter letter, LetterState to) {
  if (to == LetterState::printed && letter.state != LetterState::queued) ++letter.prints;
  letter.state = to;
  return letter;
}

} // namespace gk::followup
