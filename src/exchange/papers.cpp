#include "exchange/papers.h"

#include "base/contract.h"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <optional>
#include <utility>

namespace gk::exchange {

namespace {

constexpr std::size_t longestName = 120;

bool isFileName(std::string_view name) {
  return !name.empty() && name.size() <= longestName && name.front() != '.' &&
         std::ranges::all_of(name, [](char c) {
           return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '.' || c == '-';
         });
}

/// Hears one map of names and bytes and stops at anything else, so that nothing that is nested is
/// followed down.
class PaperReader final : public nlohmann::json_sax<nlohmann::json> {
 public:
  std::vector<Paper> papers{};

  bool null() override { return false; }
  bool boolean(bool) override { return false; }
  bool number_integer(number_integer_t) override { return false; }
  bool number_unsigned(number_unsigned_t) override { return false; }
  bool number_float(number_float_t, const string_t&) override { return false; }
  bool string(string_t&) override { return false; }
  bool binary(binary_t& content) override {
    if (!name_) return false;
    papers.push_back({*std::exchange(name_, {}), {content.begin(), content.end()}});
    return true;
  }
  bool start_object(std::size_t) override { return !std::exchange(isBegun_, true); }
  bool key(string_t& name) override {
    if (!isFileName(name) ||
        std::ranges::any_of(papers, [&](const Paper& one) { return one.name == name; }))
      return false;
    name_ = name;
    return true;
  }
  bool end_object() override { return true; }
  bool start_array(std::size_t) override { return false; }
  bool end_array() override { return false; }
  bool parse_error(std::size_t, const std::string&, const nlohmann::json::exception&) override {
    return false;
  }

 private:
  std::optional<std::string> name_{};
  bool isBegun_ = false;
};

} // namespace

std::string packed(const std::vector<Paper>& papers) {
  auto map = nlohmann::json::object();
  for (const auto& paper : papers) {
    base::require(isFileName(paper.name) && !map.contains(paper.name), "a paper's own file name");
    map[paper.name] = nlohmann::json::binary({paper.bytes.begin(), paper.bytes.end()});
  }
  std::string bytes;
  nlohmann::json::to_cbor(map, bytes);
  return bytes;
}

base::Result<std::vector<Paper>> unpacked(std::string_view bytes) {
  PaperReader reader;
  if (!nlohmann::json::sax_parse(bytes, &reader, nlohmann::json::input_format_t::cbor))
    return base::Error{base::ErrorCode::papersUnreadable,
                       "the file holds something other than papers"};
  std::ranges::sort(reader.papers, {}, &Paper::name);
  return std::move(reader.papers);
}

base::Result<base::Path> writeOut(const std::vector<Paper>& papers, const base::Path& path) {
  auto folder = base::makeNewFolder(path);
  if (!folder) return folder;
  for (const auto& paper : papers) {
    base::require(isFileName(paper.name), "a paper's own file name");
    if (const auto written = base::writeNewFile(*folder / paper.name, paper.bytes); !written) {
      std::error_code left; // half of what names children is not left lying about
      std::filesystem::remove_all(*folder, left);
      return written.error();
    }
  }
  return folder;
}

} // namespace gk::exchange
