#include "ui/close_out/close_out_words.h"

#include "reports/day/close_out_words.h"
#include "ui/support/text.h"

namespace gk::ui {

QString equationWords(const reports::DayEquation& sums) {
  return u"Consented %1  =  screened %2  +  absent %3  +  declined %4  +  left %5  +  "
         "withdrawn %6  +  on hold %7  +  not seen %8"_s.arg(sums.consented)
             .arg(sums.screened)
             .arg(sums.absent)
             .arg(sums.declined)
             .arg(sums.left)
             .arg(sums.withdrawn)
             .arg(sums.onHold)
             .arg(sums.notReached);
}

QString verdictWords(const reports::CloseOut& sheet) {
  const auto sign = !sheet.mayClose() ? u"✖ "_s : sheet.closed ? u"■ "_s : u"✔ "_s;
  return sign + toQt(reports::verdictOf(sheet));
}

} // namespace gk::ui
