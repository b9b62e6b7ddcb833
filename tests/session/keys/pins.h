#pragma once

#include "support/clinic.h"

namespace gk::test {

/// A clinic whose hygienist and assistant have PINs; the assistant types. The coordinator has none.
struct PinClinic : Clinic {
  static constexpr const char* hers = "2580";
  static constexpr const char* assistants = "714203";

  PinClinic() {
    must(session.setPin({assistant, {}}, assistant, assistants));
    must(session.setPin({hygienist, {}}, hygienist, hers));
    must(session.signIn(assistant, assistants)); // who types in `by`
  }
  session::OwnPin own(base::MemberId who, const char* pin) {
    return must(session.confirm(who, pin));
  }
  /// So many wrong ones, each after its wait; the code of the last.
  base::ErrorCode guess(base::MemberId who, int times) {
    auto code = base::ErrorCode::pinWrong;
    for (int i = 0; i < times; ++i) {
      code = codeOf(session.confirm(who, "9038"));
      clock.advance(std::chrono::seconds(31));
    }
    return code;
  }
};

} // namespace gk::test
