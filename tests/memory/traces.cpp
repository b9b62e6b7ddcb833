#include "memory/traces.h"

#include "base/contract.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cstdint>
#include <fcntl.h>
#include <fstream>
#include <sstream>
#include <sys/mman.h>
#include <unistd.h>

namespace gk::test {

namespace {

constexpr std::size_t block = std::size_t{1} << 20U;
constexpr std::size_t longest = 64;

/// Outside the heap, so that it is known which memory is the looker's own.
class Glass {
 public:
  Glass()
      : bytes_(static_cast<unsigned char*>(
            ::mmap(nullptr, size, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0))) {
    base::require(bytes_ != MAP_FAILED, "no memory to look with");
  }
  ~Glass() { ::munmap(bytes_, size); }
  Glass(const Glass&) = delete;
  Glass& operator=(const Glass&) = delete;
  [[nodiscard]] unsigned char* get() const { return bytes_; }
  [[nodiscard]] std::uintptr_t from() const { return reinterpret_cast<std::uintptr_t>(bytes_); }
  static constexpr std::size_t size = block + longest;

 private:
  unsigned char* bytes_;
};

struct Range {
  std::uintptr_t from;
  std::uintptr_t to;
  std::string name;
};

std::vector<Range> writable() {
  std::vector<Range> ranges;
  std::ifstream maps("/proc/self/maps");
  for (std::string line; std::getline(maps, line);) {
    std::istringstream words(line);
    std::string range;
    std::string may;
    std::string offset;
    std::string device;
    std::string inode;
    std::string name;
    words >> range >> may >> offset >> device >> inode >> name;
    if (may.size() < 2 || may[0] != 'r' || may[1] != 'w') continue;
    const auto dash = range.find('-');
    ranges.push_back({std::stoull(range.substr(0, dash), nullptr, 16),
                      std::stoull(range.substr(dash + 1), nullptr, 16), name});
  }
  return ranges;
}

bool isLetter(unsigned char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/// The sign at a place, XORed with its mask, against the mark's, so that the mark lies nowhere.
/// Keys and digests fill the heap with chance: of 3 letters in either case one such sign stood in
/// every two million bytes, of 7 in some 10^14.
constexpr unsigned char mask = 0x5A;
constexpr std::array<unsigned char, 7> mark{'q' ^ mask, 'z' ^ mask, 'v' ^ mask, 'x' ^ mask,
                                            'k' ^ mask, 'j' ^ mask, 'w' ^ mask};

bool isMark(const unsigned char* at, std::size_t apart) {
  for (std::size_t i = 0; i < mark.size(); ++i) {
    if (((at[i * apart] | 0x20U) ^ mask) != mark[i]) return false;
    if (apart == 2 && at[i * apart + 1] != 0) return false;
  }
  return true;
}

/// The letters after the mark, turned by one, so that the report is no trace itself.
std::string turned(const unsigned char* at, std::size_t apart) {
  std::string word;
  for (std::size_t i = mark.size(); i < mark.size() + 9 && isLetter(at[i * apart]); ++i)
    word += static_cast<char>(at[i * apart] + 1);
  return word;
}

template <class Seen>
void look(const Range& range, int memory, const Glass& window, Seen seen) {
  for (auto at = range.from; at < range.to; at += block) {
    const auto got =
        ::pread(memory, window.get(), std::min(Glass::size, range.to - at), static_cast<off_t>(at));
    if (got <= 0) continue; // guard pages
    const auto end = static_cast<std::size_t>(got);
    for (std::size_t i = 0; i + longest < end && i < block; ++i) {
      const auto* place = window.get() + i;
      if ((*place | 0x20U) != 'q') continue;
      for (std::size_t apart = 1; apart <= 2; ++apart) {
        if (!isMark(place, apart)) continue;
        seen(turned(place, apart), apart == 1 ? "UTF-8" : "UTF-16", at + i);
      }
    }
  }
}

} // namespace

std::string canary(Canary what, int which) {
  // Made letter by letter: a literal would be in the program's own memory.
  std::string name;
  for (const auto sign : mark)
    name += static_cast<char>(sign ^ mask);
  name.front() = static_cast<char>(std::toupper(name.front()));
  name += static_cast<char>('a' + static_cast<int>(what));
  for (int rest = which + 1; rest > 0; rest /= 20)
    name += static_cast<char>('a' + rest % 20);
  // Every other one is too long for std::string's own room.
  if (which % 2 == 1) name += "lonborrowfieldish";
  return name;
}

std::vector<std::string> traces() {
  std::vector<std::string> found;
  const Glass window;
  const int memory = ::open("/proc/self/mem", O_RDONLY | O_CLOEXEC);
  base::require(memory >= 0, "memory cannot be looked at");
  for (const auto& range : writable()) {
    if (range.from <= window.from() && window.from() < range.to && range.name.empty() &&
        range.to - range.from < 4 * block)
      continue;
    look(range, memory, window, [&](const std::string& word, const char* how, std::uintptr_t at) {
      std::ostringstream line;
      line << word << ", " << how << ", " << (range.name.empty() ? "mapped" : range.name) << " +"
           << std::hex << at - range.from;
      found.push_back(line.str());
    });
  }
  ::close(memory);
  return found;
}

std::size_t traceCount() {
  return traces().size();
}

} // namespace gk::test
