#include "ui/pages/close_out_words.h"

#include "reports/day/close_out_words.h"
#include "ui/support/text.h"

#include <algorithm>

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

QString lettersWords(const std::vector<reports::LetterLine>& lines) {
  const auto sums = reports::letterSums(lines);
  const auto inError = std::ranges::count_if(lines, &reports::LetterLine::isInError);
  return u"Letters  %1 of %2%3"_s.arg(sums.seenWith + sums.absentWith)
      .arg(sums.seen + sums.absent)
      .arg(inError > 0 ? u"  ✖ %1"_s.arg(inError) : QString());
}

QString laptopWords(const std::vector<reports::LaptopLine>& laptops) {
  return u"Backups  %1 of %2"_s
      .arg(std::ranges::count_if(laptops, &reports::LaptopLine::isBackedUp))
      .arg(laptops.size());
}

} // namespace gk::ui
