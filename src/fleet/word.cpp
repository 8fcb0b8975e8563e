#include "fleet/word.h"

#include <mutex>
#include <shared_mutex>
#include <unordered_set>

namespace ductwright::fleet {
namespace {

struct Hash {
  using is_transparent = void;
  std::size_t operator()(std::string_view text) const { return std::hash<std::string_view>{}(text); }
};

struct Pool {
  std::shared_mutex mutex;
  std::unordered_set<std::string, Hash, std::equal_to<>> words;  // nodes never move
};

Pool& pool() {
  static auto* const words = new Pool;  // outlives every Word, also during exit
  return *words;
}

}  // namespace

const std::string Word::s_empty;

Word::Word(std::string_view text) {
  if (text.empty()) return;
  Pool& words = pool();
  {
    const std::shared_lock lock(words.mutex);
    if (const auto found = words.words.find(text); found != words.words.end()) {
      m_text = &*found;
      return;
    }
  }
  const std::unique_lock lock(words.mutex);
  m_text = &*words.words.emplace(text).first;
}

}  // namespace ductwright::fleet
