#include "ui/visit/agreement_lapse.h"

#include "ui/asking/own_pin.h"
#include "ui/support/text.h"

namespace gk::ui {

bool agreementHolds(ChairVisit& visit, std::function<void()> then) {
  const auto day = visit.file().day.id;
  const auto lapsed = visit.book().lapsedAgreement(day);
  if (!lapsed) {
    visit.strip.post(describe(lapsed.error()));
    return false;
  }
  if (!*lapsed) return true;
  const auto clinician = visit.by().author;
  if (!clinician) {
    visit.strip.say(u"Select the provider first (F5)."_s);
    return false;
  }
  visit.ask.write(
      u"The dentist's agreement ended on %1. Reason for placing sealants today? It is "
      "listed with the day's exceptions."_s.arg(toQt((*lapsed)->words())),
      {}, [&visit, day, clinician, then = std::move(then)](const QString& reason) {
        const roster::AgreementOverride taken{day, *clinician, toStd(reason.trimmed())};
        const auto own = askOwnPin(visit.context(), clinician, u"the agreement override"_s);
        if (!own) return visit.strip.say(u"No override: no PIN was given."_s);
        if (visit.act([&] { return visit.book().overrideAgreement(visit.by(), taken, *own); }))
          then();
      });
  return false;
}

} // namespace gk::ui
