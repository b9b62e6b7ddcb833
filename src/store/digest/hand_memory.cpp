#include "store/digest/hand_memory.h"

#include "base/text/text.h"

#include <algorithm>
#include <fcntl.h>
#include <span>
#include <unistd.h>
#include <vector>

namespace gk::store {

namespace {

constexpr std::string_view firstLine = "groovekeeper hands 1";
constexpr std::string_view closedState = "closed";
constexpr std::string_view unknownWord = "unknown";

struct Remembered {
  base::LaptopId hand;
  HandEnd end;
};

struct Memory {
  std::string salt;    // of the machine's identity
  std::string machine; // its salted hash
  std::string state;
  std::vector<Remembered> hands; // the one in use last
};

std::string hexOf(std::span<const std::uint8_t> bytes) {
  std::string digits;
  for (const auto byte : bytes) {
    digits += "0123456789abcdef"[byte >> 4];
    digits += "0123456789abcdef"[byte & 15];
  }
  return digits;
}

bool readHex(std::string_view digits, std::span<std::uint8_t> into) {
  if (digits.size() != 2 * into.size()) return false;
  const auto value = [](char c) {
    return c >= '0' && c <= '9' ? c - '0' : c >= 'a' && c <= 'f' ? c - 'a' + 10 : -1;
  };
  for (std::size_t i = 0; i < into.size(); ++i) {
    const int high = value(digits[2 * i]);
    const int low = value(digits[2 * i + 1]);
    if (high < 0 || low < 0) return false;
    into[i] = static_cast<std::uint8_t>(high << 4 | low);
  }
  return true;
}

/// Of one length whatever the number, so that it is written over in place.
std::string handLine(const base::LaptopId& hand, const HandEnd& end) {
  auto number = std::to_string(end.sequence);
  number.insert(0, 19 - number.size(), '0'); // the digits of the greatest 63-bit number
  return "hand " + hand.text() + ' ' + number + ' ' + hexOf(end.digest) + '\n';
}

std::optional<Remembered> readHandLine(std::string_view line) {
  const auto words = base::split(line, ' ');
  if (words.size() != 4 || words[0] != "hand") return std::nullopt;
  const auto hand = base::Uuid::parse(words[1]);
  const auto sequence = base::parseInt(words[2]);
  HandEnd end;
  if (!hand || !sequence || *sequence < 0 || !readHex(words[3], end.digest)) return std::nullopt;
  end.sequence = *sequence;
  return Remembered{base::LaptopId(*hand), end};
}

/// So that a file that lost a line or a letter is known for one.
std::string withSum(const std::string& text) {
  return text + "sum " + crypto::digest(text) + '\n';
}

std::optional<Memory> readMemory(const base::Path& file) {
  const auto text = base::readFile(file);
  if (!text) return std::nullopt;
  const auto at = text->rfind("sum ");
  if (at == std::string::npos || withSum(text->substr(0, at)) != *text) return std::nullopt;
  const auto lines = base::split(std::string_view(*text).substr(0, at), '\n');
  if (lines.size() < 4 || lines[0] != firstLine) return std::nullopt;
  const auto machine = base::split(lines[1], ' ');
  if (machine.size() != 3 || machine[0] != "machine" || !lines[2].starts_with("state "))
    return std::nullopt;
  Memory memory{
      std::string(machine[1]), std::string(machine[2]), std::string(lines[2].substr(6)), {}};
  for (std::size_t i = 3; i + 1 < lines.size(); ++i) {
    const auto hand = readHandLine(lines[i]);
    if (!hand) return std::nullopt;
    memory.hands.push_back(*hand);
  }
  return memory;
}

base::Path nowFile(const base::Path& file) {
  auto path = file;
  return path += ".now";
}

/// What was said last, without a sync, of the hand in use.
std::optional<HandEnd> readNow(const base::Path& file, const base::LaptopId& hand) {
  const auto text = base::readFile(nowFile(file));
  if (!text) return std::nullopt;
  const auto line = readHandLine(base::trim(*text));
  if (!line || line->hand != hand) return std::nullopt;
  return line->end;
}

/// The identity itself is not kept: it would tell the computer to whoever finds the file.
std::string hashOf(const std::optional<std::string>& machine, const std::string& salt) {
  return machine ? crypto::digest("groovekeeper machine 1 " + salt + ' ' + *machine)
                 : std::string(unknownWord);
}

/// How much of what is remembered of the hand in use can be believed.
enum class Trust {
  closed, ///< the logbook was closed after its last act
  killed, ///< it was not, but the computer went on running
  cut     ///< the computer went off; its disk may have kept less than was said
};

/// Brings the hand in use up to what was last said of it.
Trust settleOpen(Memory& memory, const base::Path& file, const std::optional<std::string>& boot) {
  if (memory.state == closedState || memory.hands.empty()) return Trust::closed;
  auto& last = memory.hands.back();
  const auto now = readNow(file, last.hand);
  if (now && now->sequence >= last.end.sequence) last.end = *now;
  return now && boot && memory.state == "open " + *boot ? Trust::killed : Trust::cut;
}

/// Leaves the hands that end in the logbook just where this laptop left them: they alone may be
/// gone on with. What is missing is said once, since the hand that wrote it is forgotten with it.
HandNews keepWhatFits(Memory& memory, Trust trust, const HandMemory::Look& look,
                      std::optional<base::LaptopId>& lost) {
  if (memory.hands.empty()) return HandNews::same;
  const auto inUse = memory.hands.back().hand;
  bool wentOn = false;
  std::erase_if(memory.hands, [&](const Remembered& one) {
    const auto found = look(one.hand, one.end);
    if (one.hand == inUse && trust == Trust::cut && found.hasRemembered) return true;
    if (found.end == one.end && !found.isParted) return false;
    if (!found.hasRemembered)
      lost = one.hand;
    else if (found.isParted || one.hand != inUse || trust == Trust::closed)
      wentOn = true; // else a kill came between an act and what was to be remembered of it
    return true;
  });
  const bool isInUse = !memory.hands.empty() && memory.hands.back().hand == inUse;
  return lost      ? HandNews::earlierCopy
         : wentOn  ? HandNews::wentOnElsewhere
         : isInUse ? HandNews::same
                   : HandNews::notClosed;
}

} // namespace

HeldHand::HeldHand(base::Path file, std::string others, std::string machine, base::LaptopId hand,
                   HandEnd end)
    : file_(std::move(file)), others_(std::move(others)), machine_(std::move(machine)), hand_(hand),
      end_(end) {}

HeldHand::~HeldHand() {
  if (!began_) return;
  // A disk that takes no more leaves the hand open, which costs a new one the next time.
  (void)base::replaceFile(file_, text(std::string(closedState)));
  if (now_ >= 0) ::close(now_);
}

std::string HeldHand::text(const std::string& state) const {
  return withSum(std::string(firstLine) + '\n' + machine_ + "state " + state + '\n' + others_ +
                 handLine(hand_, end_));
}

bool HeldHand::begin(const std::optional<std::string>& boot) {
  if (!base::makeFolder(file_.parent_path())) return false;
  // First what a killed session leaves, then that there is one.
  if (!base::replaceFile(nowFile(file_), handLine(hand_, end_))) return false;
  now_ = ::open(nowFile(file_).c_str(), O_WRONLY | O_CLOEXEC);
  if (now_ < 0) return false;
  began_ =
      base::replaceFile(file_, text("open " + boot.value_or(std::string(unknownWord)))).has_value();
  return began_;
}

void HeldHand::wrote(const HandEnd& end) {
  end_ = end;
  const auto line = handLine(hand_, end_);
  // Less than all of it is found out by its length.
  if (::pwrite(now_, line.data(), line.size(), 0) != static_cast<ssize_t>(line.size()))
    (void)!::ftruncate(now_, 0);
}

HandMemory::HandMemory(base::Path folder, base::Machine machine, base::Random& random)
    : folder_(std::move(folder)), machine_(std::move(machine)), random_(&random) {}

HandMemory::Taken HandMemory::take(const base::Uuid& book, const Look& look,
                                   base::Instant now) const {
  if (fixed_) return {*fixed_};
  const auto file = folder_ / "hands" / book.text();
  const base::LaptopId fresh(base::makeUuid7(now, *random_));
  auto memory = readMemory(file).value_or(Memory{});
  auto news = memory.hands.empty() ? HandNews::firstHere : HandNews::same;
  std::optional<base::LaptopId> lost;
  if (memory.salt.empty()) {
    std::array<std::uint8_t, 16> salt{};
    random_->fill(salt);
    memory.salt = hexOf(salt);
  } else if (memory.machine != hashOf(machine_.id, memory.salt)) {
    news = HandNews::otherMachine;
    memory.hands.clear(); // they are the other computer's
  }
  if (news == HandNews::same)
    news = keepWhatFits(memory, settleOpen(memory, file, machine_.boot), look, lost);
  Remembered taken{fresh, {}};
  if (!memory.hands.empty()) {
    taken = memory.hands.back();
    memory.hands.pop_back();
  }
  std::string others;
  for (const auto& one : memory.hands)
    others += handLine(one.hand, one.end);
  const auto machine = "machine " + memory.salt + ' ' + hashOf(machine_.id, memory.salt) + '\n';
  auto held = std::make_unique<HeldHand>(file, others, machine, taken.hand, taken.end);
  if (!held->begin(machine_.boot))
    return {fresh, news, {}, lost}; // what is not remembered is never gone on with
  return {taken.hand, news, std::move(held), lost};
}

} // namespace gk::store
