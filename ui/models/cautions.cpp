#include "ui/models/cautions.h"

#include "ui/support/text.h"

namespace gk::ui {

QStringList cautions() {
  return {
      u"Not a medical device, not a diagnosis tool. It records and times; a licensed person decides."_s,
      u"Who may screen, choose, seal and apply varnish differs by state. The program enters its rule; the tool does not know the law."_s,
      u"Times are minimum reminders. The maker's cure time is the least allowed."_s,
      u"A light reading is a comparison, not a certified measure."_s,
      u"Blue light: filters for everyone looking; never stare."_s,
      u"Etchant: eyewear; rinse skin and gum at once; an eye is flushed 15 minutes, then medical care."_s,
      u"Acrylate allergy: no resin. Latex and rosin are separate stops."_s,
      u"Parents ask about BPA: traces may be released at placement; wiping or rinsing the surface lowers it. Give the program's approved sheet."_s,
      u"Infection control follows national and local rules also in portable settings; the laptop is a contact surface."_s,
      u"Sterilizer: a failed or late spore test means stop using those packs."_s,
      u"Consent: the signature must be from someone entitled; when parents disagree, stop and get advice."_s,
      u"Privacy law depends on who you act for and whether you bill electronically. Ask counsel; record the answer."_s,
      u"Lost device: report at once. Sealed data may not need notice, unsealed data does; the outer limit is 60 days and state law may be shorter."_s,
      u"Corrections: add, don't erase; none after a complaint without advice."_s,
      u"Keep records as long as your state says for minors."_s,
      u"Reporting suspected neglect is personal, immediate, and not done in this tool."_s,
      u"Emergency: call the emergency number first, record later."_s,
      u"Retention is of found children only; do not use small numbers to judge a person."_s,
      u"Printed lists carry children's names: count out, count in, shred."_s,
  };
}

QString cautionsEnd() {
  return u"Your state practice act, program protocol and the maker's instructions come first."_s;
}

} // namespace gk::ui
