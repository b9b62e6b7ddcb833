#include "support/clinic.h"

using namespace gk;
using namespace gk::test;

TEST_CASE("What is done in another thread is told afterwards, once, and nothing where nothing was",
          "[case-275]") {
  Clinic clinic;
  int heard = 0;
  const auto listening = clinic.session.onChanged([&](const session::Change&) { ++heard; });
  clinic.session.holdNews();
  clinic.child("Mina");
  clinic.child("Lupe");
  CHECK(heard == 0);
  clinic.session.tellNews();
  CHECK(heard == 1);
  clinic.session.holdNews();
  clinic.session.tellNews();
  CHECK(heard == 1);
  clinic.child("Odalys");
  CHECK(heard > 1); // at once again
}
