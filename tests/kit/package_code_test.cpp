#include "kit/package_code.h"

#include <catch2/catch.hpp>

using namespace gk;
using namespace gk::kit;

// 09506000134352 is the number of GS1's own examples.
TEST_CASE("A package's GS1 code says lot and expiry, however it is sent", "[case-303]") {
  const PackageCode wanted{"RF2706", base::Date::of(2027, 6, 30).value()};
  for (const std::string code :
       {"01095060001343521727063010RF2706", "]d201095060001343521727063010RF2706",
        "]C101095060001343521727060010RF2706",
        "010950600013435210RF2706\x1d"
        "17270630",
        "(01)09506000134352(17)270630(10)RF2706", "(01)09506000134352(10)RF2706(17)270630"}) {
    INFO(code);
    CHECK(readPackageCode(code) == wanted);
  }
  CHECK(readPackageCode("010950600013435210RF2706") == PackageCode{"RF2706", {}});
}

TEST_CASE("What is no GS1 code of a lot is read as none", "[case-303]") {
  for (const std::string code :
       {"", "RF-2706", "1043-7", "09506000134352", "0109506000134352",
        "0109506000134353"
        "10RF",
        "01095060001343521727133010RF", "(01)09506000134352(10)", "10RF2706", "(10)RF2706",
        "010950600013435299RF", "(01)0950600013", "]d2", "(", "\x1d"}) {
    INFO(code);
    CHECK_FALSE(readPackageCode(code));
  }
}

TEST_CASE("A product's number is known by its check digit and is no lot", "[case-303]") {
  for (const std::string code : {"09506000134352", "4006381333931", "96385074", "036000291452"})
    CHECK(isProductCode(code));
  for (const std::string code : {"09506000134353", "4006381333932", "RF-2706", "", "12345678"})
    CHECK_FALSE(isProductCode(code));
}
