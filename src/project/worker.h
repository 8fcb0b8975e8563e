#pragma once

#include <condition_variable>
#include <deque>
#include <functional>
#include <future>
#include <mutex>
#include <thread>

namespace ductwright::project {

// One thread that runs what it is given, in order: the owner of the project file.
class Worker {
 public:
  Worker() : m_thread([this](std::stop_token stop) { loop(stop); }) {}

  // Runs `task` on the worker's thread and returns its result. Called on that thread itself, runs at once.
  template <class Task>
  auto run(Task&& task) -> decltype(task()) {
    if (std::this_thread::get_id() == m_thread.get_id()) return task();
    std::packaged_task<decltype(task())()> packaged(std::forward<Task>(task));
    auto result = packaged.get_future();
    {
      const std::lock_guard lock(m_mutex);
      m_tasks.emplace_back([&packaged] { packaged(); });
    }
    m_ready.notify_one();
    return result.get();
  }

 private:
  void loop(const std::stop_token& stop) {
    std::unique_lock lock(m_mutex);
    while (m_ready.wait(lock, stop, [this] { return !m_tasks.empty(); })) {
      const auto task = std::move(m_tasks.front());
      m_tasks.pop_front();
      lock.unlock();
      task();
      lock.lock();
    }
  }

  std::mutex m_mutex;
  std::condition_variable_any m_ready;
  std::deque<std::function<void()>> m_tasks;
  std::jthread m_thread;
};

}  // namespace ductwright::project
