#include "ui/models/readiness_words.h"

#include "base/contract.h"
#include "reports/display_names.h"
#include "ui/support/text.h"

#include <algorithm>

namespace gk::ui {

using kit::ReadinessItem;

QString readinessWords(std::span<const base::Recorded<kit::ReadinessCheck>> answers) {
  constexpr auto items = base::enumCount<ReadinessItem>;
  if (answers.size() < items) return u"%1 of %2 checked"_s.arg(answers.size()).arg(items);
  QStringList odd;
  for (const auto& answer : answers)
    if (kit::isException(answer.value.answer))
      odd += toQt(base::displayName(answer.value.item)) + u' ' +
             toQt(base::displayName(answer.value.answer));
  return odd.join(u", "_s);
}

QString readinessQuestion(ReadinessItem item) {
  switch (item) {
  case ReadinessItem::airLine:
    return u"Air line clear: no moisture or oil on a mirror?"_s;
  case ReadinessItem::light:
    return u"Curing light checked on its meter, tip clean, sleeve on?"_s;
  case ReadinessItem::lots:
    return u"Today's lots: in date, none set aside, kept from heat and light?"_s;
  case ReadinessItem::sterilizer:
    return u"Sterilizer: spore test passed within a week, indicators changed color?"_s;
  case ReadinessItem::suctionAndWater:
    return u"Suction works, water lines flushed?"_s;
  case ReadinessItem::eyes:
    return u"Eye protection for child and team, blue filter, eyewash at hand?"_s;
  case ReadinessItem::emergencyKit:
    return u"Emergency kit here? Nurse and AED located?"_s;
  case ReadinessItem::clock:
    return u"Does the laptop's clock match the school's clock?"_s;
  }
  base::fail("no such item");
}

} // namespace gk::ui
