#pragma once

#include "exchange/extract/records.h"

namespace gk::test {

inline base::Date dateOf(const std::string& iso) {
  return *base::Date::parse(iso);
}

/// One day with two children, each screened, sealed on one tooth and checked; only the first one's
/// form allows sharing. Free text says things that must not leave.
class SampleExport {
  int last_ = 0; // first, as the identities of the members below count it

 public:
  SampleExport();

  exchange::Records records;
  roster::ChildId first;
  roster::ChildId second;
  exchange::People people;

  template <class Id>
  Id id() {
    base::Uuid uuid;
    uuid.bytes[6] = 0x70;
    uuid.bytes[8] = 0x80;
    uuid.bytes[14] = static_cast<std::uint8_t>(++last_ / 256);
    uuid.bytes[15] = static_cast<std::uint8_t>(last_ % 256);
    return Id(uuid);
  }

  template <class T>
  base::Recorded<T> row(T value) {
    return named<T>(id<typename T::Key>(), std::move(value));
  }
  template <class T>
  base::Recorded<T> named(typename T::Key key, T value) {
    return {key,
            {id<base::EntryId>(), base::LaptopId(base::Uuid{}), last_, {}, {}, {}, ""},
            std::move(value)};
  }
  void addChild(roster::ChildId child, const std::string& number, roster::ServiceSet allowed);
};

} // namespace gk::test
