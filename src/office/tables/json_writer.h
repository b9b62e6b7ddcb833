#pragma once

#include <concepts>
#include <cstdint>
#include <optional>
#include <ostream>
#include <string>
#include <string_view>
#include <vector>

namespace gk::office {

/// Writes one JSON value (RFC 8259) as it goes, two spaces a level, a line feed at its end.
/// Numbers are the shortest text that reads back the same; one that is not finite is null. Text
/// must be UTF-8. Calls out of order (a second value for a key, an end without a beginning) are
/// bugs and abort.
class JsonWriter {
 public:
  explicit JsonWriter(std::ostream& out) : out_(out) {}

  void beginObject() { begin('{'); }
  void endObject() { end('}'); }
  void beginArray() { begin('['); }
  void endArray() { end(']'); }
  void key(std::string_view name);

  void null() { write("null"); }
  void value(std::string_view text);
  void value(const char* text) { value(std::string_view(text)); }
  void value(const std::string& text) { value(std::string_view(text)); }
  void value(double number);
  template <std::same_as<bool> B>
  void value(B isTrue) {
    write(isTrue ? "true" : "false");
  }
  template <std::integral I>
  requires(!std::same_as<I, bool>) void value(I number) { write(std::to_string(number)); }
  template <class T>
  void value(const std::optional<T>& maybe) {
    if (maybe)
      value(*maybe);
    else
      null();
  }
  void value(const std::vector<std::string>& texts);

  template <class T>
  void field(std::string_view name, const T& what) {
    key(name);
    value(what);
  }
  void objectField(std::string_view name) {
    key(name);
    beginObject();
  }
  void arrayField(std::string_view name) {
    key(name);
    beginArray();
  }

 private:
  void begin(char bracket);
  void end(char bracket);
  void write(std::string_view text);
  void separate();
  void newLine();

  struct Level {
    char closing;
    bool isEmpty = true;
  };
  std::ostream& out_;
  std::vector<Level> levels_;
  bool afterKey_ = false;
};

} // namespace gk::office
