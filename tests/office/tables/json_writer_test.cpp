#include "office/tables/json_writer.h"

#include <catch2/catch.hpp>
#include <limits>
#include <nlohmann/json.hpp>
#include <sstream>

using gk::office::JsonWriter;
using Json = nlohmann::json;

namespace {

template <class T>
Json written(const T& value) {
  std::ostringstream out;
  JsonWriter json(out);
  json.beginObject();
  json.field("v", value);
  json.endObject();
  return Json::parse(out.str()).at("v");
}

} // namespace

TEST_CASE("Text comes back as it was, whatever is in it") {
  for (const std::string text : {"", "plain", "a \"quote\" and a \\",
                                 "two\nlines\tand\x01 bell\x1f", "Đặng Thị Hà, 李", "</script>"})
    CHECK(written(text) == text);
  CHECK(written("literal") == "literal");
}

TEST_CASE("Numbers come back the same and none is not a number") {
  for (const double number : {0.0, -1.5, 0.1, 1e-300, 10724.718475801941, 1.7976931348623157e308})
    CHECK(written(number).get<double>() == number);
  CHECK(written(std::numeric_limits<double>::quiet_NaN()).is_null());
  CHECK(written(std::numeric_limits<double>::infinity()).is_null());
  CHECK(written(std::int64_t{-9007199254740993}) == std::int64_t{-9007199254740993});
  CHECK(written(std::size_t{7}) == 7);
}

TEST_CASE("Truth, nothing and lists are themselves") {
  CHECK(written(true) == true);
  CHECK(written(std::optional<double>()).is_null());
  CHECK(written(std::optional<int>(3)) == 3);
  CHECK(written(std::vector<std::string>{"a", "b"}) == Json::array({"a", "b"}));
  CHECK(written(std::vector<std::string>{}) == Json::array());
}

TEST_CASE("Objects and lists nest and are laid out line by line") {
  std::ostringstream out;
  JsonWriter json(out);
  json.beginObject();
  json.arrayField("rows");
  json.beginObject();
  json.field("n", 1);
  json.endObject();
  json.value(2);
  json.endArray();
  json.objectField("none");
  json.endObject();
  json.endObject();
  CHECK(out.str() == "{\n  \"rows\": [\n    {\n      \"n\": 1\n    },\n    2\n  ],\n"
                     "  \"none\": {}\n}\n");
}
