#include "store/sqlite/statement.h"

#include "broken/broken_books.h"
#include "store/rows/row_io.h"
#include "store/sqlite/connection.h"
#include "support/scratch.h"

#include <catch2/catch.hpp>

namespace gk::test {

using store::Connection;
using store::guarded;

namespace {

const base::LaptopId someLaptop{base::Uuid::parse("018f4e2a-7c3b-7d10-8a55-0123456789ab").value()};
const base::EntryId someEntry{
    store::nextIdentity(someMorning, base::Uuid{}, store::markOf(someLaptop))};

struct Sheet {
  Sheet() {
    writeBytes(scratch / "sheet", "");
    connection.emplace(scratch / "sheet", store::Access::readWrite, store::Durability::bulk);
    connection->execute("CREATE TABLE cell (value ANY) STRICT; CREATE TABLE hand (number INTEGER "
                        "PRIMARY KEY, laptop BLOB NOT NULL) STRICT");
    connection->prepare("INSERT INTO hand VALUES (7, ?)").bindAll(someLaptop).run();
  }

  template <class T>
  void put(const T& value) {
    connection->execute("DELETE FROM cell");
    connection->prepare("INSERT INTO cell (value) VALUES (?1)").bindAll(value).run();
  }

  template <class T>
  base::Result<T> take() {
    return guarded([&] {
      auto row = connection->prepare("SELECT value FROM cell");
      base::require(row.step(), "one row");
      return row.column<T>(0);
    });
  }

  template <class T>
  bool keeps(const T& value) {
    put(value);
    return take<T>().value() == value;
  }

  template <class T>
  bool isDamagedAs() {
    const auto read = take<T>();
    return !read && read.error().code == base::ErrorCode::storeDamaged &&
           read.error().detail.find("column value") != std::string::npos;
  }

  Scratch scratch;
  std::optional<Connection> connection;
};

} // namespace

TEST_CASE("every kind of value comes back as it was bound") {
  Sheet sheet;
  CHECK(sheet.keeps(std::numeric_limits<std::int64_t>::min()));
  CHECK(sheet.keeps(42));
  CHECK(sheet.keeps(true));
  CHECK(sheet.keeps(0.1));
  CHECK(sheet.keeps(std::string()));
  CHECK(sheet.keeps(std::string("Pi\u00f1a; 'quoted'")));
  CHECK(sheet.keeps(std::vector<std::uint8_t>{0, 1, 255}));
  CHECK(sheet.keeps(std::vector<std::uint8_t>{}));
  CHECK(sheet.keeps(someLaptop));
  CHECK(sheet.keeps(someEntry));
  CHECK(sheet.keeps(base::Date::of(2026, 11, 17).value()));
  CHECK(sheet.keeps(someMorning));
  CHECK(sheet.keeps(base::Milliseconds(60'000)));
  CHECK(sheet.keeps(std::optional<base::MemberId>()));
  CHECK(sheet.keeps(std::optional(base::MemberId(someEntry.uuid()))));
  CHECK(sheet.keeps(std::optional<base::Date>()));
}

TEST_CASE(
    "identities are kept as whole numbers, those of laptops as blobs of 16 bytes and dates as "
    "ISO text") {
  Sheet sheet;
  sheet.put(someEntry);
  const std::int64_t since2020 = someMorning.utc.count() - 1'577'836'800'000;
  CHECK(sheet.take<std::int64_t>().value() == since2020 * 1024 * 2048 + 7);
  sheet.put(someLaptop);
  const auto& bytes = someLaptop.uuid().bytes;
  CHECK(sheet.take<std::vector<std::uint8_t>>().value() ==
        std::vector<std::uint8_t>(bytes.begin(), bytes.end()));
  sheet.put(base::Date::of(2026, 11, 17).value());
  CHECK(sheet.take<std::string>().value() == "2026-11-17");
}

TEST_CASE("a value of the wrong kind is a damaged book") {
  Sheet sheet;
  sheet.put(std::string("seven"));
  CHECK(sheet.isDamagedAs<int>());
  CHECK(sheet.isDamagedAs<base::LaptopId>());
  CHECK(sheet.isDamagedAs<base::EntryId>());
  CHECK(sheet.isDamagedAs<base::Date>());
  CHECK(sheet.isDamagedAs<std::optional<base::Date>>());
  sheet.put(300); // an identity by a hand that is not listed
  CHECK(sheet.isDamagedAs<base::EntryId>());
  CHECK(sheet.isDamagedAs<std::uint8_t>());
  CHECK(sheet.isDamagedAs<bool>());
  CHECK(sheet.isDamagedAs<std::string>());
  CHECK(sheet.isDamagedAs<double>());
  sheet.put(std::vector<std::uint8_t>{1, 2, 3});
  CHECK(sheet.isDamagedAs<base::EntryId>());
  sheet.put(std::nullopt);
  CHECK(sheet.isDamagedAs<std::string>());
}

TEST_CASE("the detail of a damaged value does not repeat the value") {
  Sheet sheet;
  sheet.put(std::string("seven"));
  CHECK(sheet.take<int>().error().detail.find("seven") == std::string::npos);
}

TEST_CASE("a word or tooth that a record cannot hold is damage, told without the value",
          "[case-111]") {
  Sheet sheet;
  const auto detailOf = [&](auto take) {
    const auto read = guarded([&] {
      auto row = sheet.connection->prepare("SELECT value FROM cell");
      base::require(row.step(), "one row");
      store::RowReader reader(row, 0);
      take(reader);
      return 0;
    });
    REQUIRE_FALSE(read);
    CHECK(read.error().code == base::ErrorCode::storeDamaged);
    return read.error().detail;
  };
  sheet.put(std::string("Tolliver"));
  CHECK(detailOf([](auto& row) { (void)row.template take<kit::LightType>(); }).find("Tolliver") ==
        std::string::npos);
  sheet.put(4711);
  CHECK(detailOf([](auto& row) { (void)row.template take<dentition::Tooth>(); }).find("4711") ==
        std::string::npos);
}

TEST_CASE("a statement comes back from its loan without rows or bindings") {
  Sheet sheet;
  constexpr std::string_view echo = "SELECT ?1";
  {
    auto first = sheet.connection->prepare(echo);
    first.bind(1, 7);
    REQUIRE(first.step());
  }
  auto second = sheet.connection->prepare(echo);
  REQUIRE(second.step());
  CHECK(second.isNull(0));
}

TEST_CASE("the same statement may be on loan twice at once") {
  Sheet sheet;
  constexpr std::string_view echo = "SELECT ?1";
  auto outer = sheet.connection->prepare(echo);
  auto inner = sheet.connection->prepare(echo);
  outer.bindAll(1);
  inner.bindAll(2);
  REQUIRE(outer.step());
  REQUIRE(inner.step());
  CHECK(outer.column<int>(0) == 1);
  CHECK(inner.column<int>(0) == 2);
}

TEST_CASE("a statement can be used again after trouble") {
  Sheet sheet;
  sheet.connection->execute("CREATE TABLE once (id INTEGER NOT NULL PRIMARY KEY) STRICT");
  constexpr std::string_view insert = "INSERT INTO once (id) VALUES (?1)";
  const auto add = [&](int id) {
    return guarded([&] { sheet.connection->prepare(insert).bindAll(id).run(); });
  };
  CHECK(add(1));
  CHECK_FALSE(add(1));
  CHECK(add(2));
  CHECK(sheet.connection->changes() == 1);
}

} // namespace gk::test
