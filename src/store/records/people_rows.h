#pragma once

#include "followup/placements_confirmed.h"
#include "roster/team/member_pin.h"
#include "store/rows/rows.h"

namespace gk::store {

template <>
struct Rows<roster::MemberPin> {
  static constexpr std::string_view table = "member_pin";
  static constexpr std::string_view columns =
      "member, salt, passes, memory_bytes, nonce, box, reason";
  template <class Row>
  static void write(Row& row, const roster::MemberPin& p) {
    row << p.member << p.salt << p.opsLimit << p.memoryBytes << p.nonce << p.box << p.reason;
  }
  static roster::MemberPin read(RowReader& row) {
    return {.member = row,
            .salt = row,
            .opsLimit = row,
            .memoryBytes = row,
            .nonce = row,
            .box = row,
            .reason = row};
  }
};

template <>
struct Rows<followup::PlacementsConfirmed> {
  static constexpr std::string_view table = "placements_confirmed";
  static constexpr std::string_view columns = "day, member, through";
  template <class Row>
  static void write(Row& row, const followup::PlacementsConfirmed& c) {
    row << c.day << c.member << c.through;
  }
  static followup::PlacementsConfirmed read(RowReader& row) {
    return {.day = row, .member = row, .through = row};
  }
};

} // namespace gk::store
