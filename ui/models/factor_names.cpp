#include "ui/models/factor_names.h"

#include "ui/support/text.h"

namespace gk::ui {

using reports::Factor;

QString factorWords(Factor factor) {
  switch (factor) {
  case Factor::school:
    return u"School"_s;
  case Factor::light:
    return u"Light"_s;
  case Factor::arch:
    return u"Upper or lower"_s;
  case Factor::tooth:
    return u"Tooth"_s;
  case Factor::isolation:
    return u"Isolation"_s;
  case Factor::delivery:
    return u"Two or four hands"_s;
  case Factor::placedBy:
    return u"Operator, from 30 teeth on"_s;
  case Factor::lot:
    return u"Sealant lot"_s;
  case Factor::pair:
    return u"Operator and assistant, from 30 teeth on"_s;
  case Factor::wet:
    return u"Contamination"_s;
  case Factor::holding:
    return u"Who retracted cheek and tongue"_s;
  case Factor::guards:
    return u"Isolation items"_s;
  case Factor::eruption:
    return u"Eruption when placed"_s;
  case Factor::enamel:
    return u"Hypomineralized enamel"_s;
  case Factor::grade:
    return u"Grade now"_s;
  }
  return {};
}

} // namespace gk::ui
