// 16 is two different teeth in two notations, so a number alone is no tooth.
#include "dentition/tooth.h"

std::string words(gk::dentition::Tooth tooth) {
  return tooth.words();
}

std::string check() {
#ifdef GK_WRONG
  return words(16);
#else
  return words(gk::dentition::toothAt(16));
#endif
}
