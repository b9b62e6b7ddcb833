#include "ui/models/readiness_words.h"

#include "base/contract.h"
#include "ui/support/text.h"

#include <algorithm>

namespace gk::ui {

using kit::ReadinessItem;

QString readinessWords(std::span<const base::Recorded<kit::ReadinessCheck>> answers) {
  constexpr auto items = base::enumCount<ReadinessItem>;
  if (answers.size() < items)
    return u"▲ Not ready: %1 of %2 checked. F9"_s.arg(answers.size()).arg(items);
  QStringList odd;
  for (const auto& answer : answers)
    if (kit::isException(answer.value.answer))
      odd += toQt(base::nameOf(answer.value.item)) + u' ' + toQt(base::nameOf(answer.value.answer));
  return odd.isEmpty() ? QString() : u"▲ Morning check: "_s + odd.join(u", "_s);
}

QString readinessQuestion(ReadinessItem item) {
  switch (item) {
  case ReadinessItem::airLine:
    return u"Air line blown clear: no moisture and no oil on a mirror?"_s;
  case ReadinessItem::light:
    return u"Curing light read on its meter, tip clean, barrier sleeve on?"_s;
  case ReadinessItem::lots:
    return u"Lots of today: in date, none set aside, kept from heat and light?"_s;
  case ReadinessItem::sterilizer:
    return u"Sterilizer: spore test within a week and passed, packs changed color?"_s;
  case ReadinessItem::suctionAndWater:
    return u"Suction pulls, water lines flushed?"_s;
  case ReadinessItem::eyes:
    return u"Eye protection for child and team, blue filter, eyewash at hand?"_s;
  case ReadinessItem::emergencyKit:
    return u"Emergency kit here, and where are the nurse and the defibrillator?"_s;
  case ReadinessItem::clock:
    return u"Read the laptop's clock aloud. Does the school's clock agree?"_s;
  }
  base::fail("no such item");
}

} // namespace gk::ui
