// Runs the program itself: its words as bytes, its standard streams as pipes, files or devices.
//
//     const auto ran = runProgram({ "curve", "-" }, { .input = "h,density\n..." });
//     EXPECT_EQ(ran.status, 0) << ran.err;
#pragma once

#include <QByteArray>
#include <QFile>
#include <QList>
#include <QString>
#include <array>
#include <cerrno>
#include <csignal>
#include <fcntl.h>
#include <functional>
#include <optional>
#include <poll.h>
#include <stdexcept>
#include <string>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>
#include <vector>

namespace washfast::test {

struct Ran {
    int status = -1; // the exit status; below 0: ended by that signal
    bool too_slow = false; // it did not come back and was killed
    std::string out, err;
};

struct How {
    QByteArray input {}; // of standard input
    std::optional<QByteArray> piped {}; // what a pipe gives that the program finds at pipedPath
    QString folder {}; // it is started in
    const char* out_to = nullptr; // a file or a device instead of a pipe
    std::function<void()> before {}; // in the new process, just before the program
    int seconds = 60; // it may take
};

inline constexpr const char* pipedPath = "/dev/fd/9";

namespace run_program {

struct Pipe {
    int reads = -1, writes = -1;
    Pipe()
    {
        int ends[2];
        if (::pipe2(ends, O_CLOEXEC) != 0)
            throw std::runtime_error("no pipe");
        reads = ends[0];
        writes = ends[1];
    }
};

[[noreturn]] inline void become(const QList<QByteArray>& words, const How& how, const std::array<Pipe, 4>& pipes)
{
    ::signal(SIGPIPE, SIG_DFL);
    if (!how.folder.isEmpty() && ::chdir(QFile::encodeName(how.folder).constData()) != 0)
        ::_exit(126);
    ::dup2(pipes[0].reads, STDIN_FILENO);
    ::dup2(how.out_to ? ::open(how.out_to, O_WRONLY) : pipes[1].writes, STDOUT_FILENO);
    ::dup2(pipes[2].writes, STDERR_FILENO);
    if (how.piped)
        ::dup2(pipes[3].reads, 9);
    if (how.before)
        how.before();
    std::vector<char*> argv { const_cast<char*>(WASHFAST_PROGRAM) };
    for (const auto& word : words)
        argv.push_back(const_cast<char*>(word.constData()));
    argv.push_back(nullptr);
    ::execv(WASHFAST_PROGRAM, argv.data());
    ::_exit(127);
}

inline double now()
{
    timespec time {};
    ::clock_gettime(CLOCK_MONOTONIC, &time);
    return double(time.tv_sec) + double(time.tv_nsec) * 1e-9;
}

} // namespace run_program

inline Ran runProgram(const QList<QByteArray>& words, const How& how = {})
{
    using namespace run_program;
    ::signal(SIGPIPE, SIG_IGN); // the program may close a pipe that it has read enough of
    const std::array<Pipe, 4> pipes;
    const pid_t child = ::fork();
    if (child < 0)
        throw std::runtime_error("no child process");
    if (child == 0)
        become(words, how, pipes);
    for (const int end : { pipes[0].reads, pipes[1].writes, pipes[2].writes, pipes[3].reads })
        ::close(end);
    struct Feed {
        int to;
        QByteArray bytes;
        qsizetype at = 0;
    };
    std::array<Feed, 2> feeds { Feed { pipes[0].writes, how.input }, Feed { pipes[3].writes, how.piped.value_or("") } };
    for (auto& feed : feeds)
        ::fcntl(feed.to, F_SETFL, O_NONBLOCK);
    Ran ran;
    std::array<std::pair<int, std::string*>, 2> said { std::pair(pipes[1].reads, &ran.out),
        std::pair(pipes[2].reads, &ran.err) };
    const double until = now() + how.seconds;
    while (said[0].first >= 0 || said[1].first >= 0) {
        std::array<pollfd, 4> waits {};
        for (size_t i = 0; i < 2; ++i) {
            auto& feed = feeds[i];
            if (feed.to >= 0 && feed.at == feed.bytes.size()) {
                ::close(feed.to);
                feed.to = -1;
            }
            waits[i] = { feed.to, POLLOUT, 0 };
            waits[2 + i] = { said[i].first, POLLIN, 0 };
        }
        const double left = until - now();
        if (left <= 0 || ::poll(waits.data(), waits.size(), int(left * 1000) + 1) == 0) {
            ran.too_slow = true;
            ::kill(child, SIGKILL);
            break;
        }
        for (size_t i = 0; i < 2; ++i) {
            auto& feed = feeds[i];
            if (feed.to >= 0 && waits[i].revents) {
                const auto put
                    = ::write(feed.to, feed.bytes.constData() + feed.at, size_t(feed.bytes.size() - feed.at));
                if (put > 0)
                    feed.at += put;
                else if (errno != EAGAIN && errno != EINTR)
                    feed.at = feed.bytes.size(); // nobody reads on
            }
            if (said[i].first >= 0 && waits[2 + i].revents) {
                char buffer[65536];
                const auto got = ::read(said[i].first, buffer, sizeof buffer);
                if (got > 0) {
                    said[i].second->append(buffer, size_t(got));
                } else if (got == 0 || errno != EINTR) {
                    ::close(said[i].first);
                    said[i].first = -1;
                }
            }
        }
    }
    for (const int end : { feeds[0].to, feeds[1].to, said[0].first, said[1].first })
        if (end >= 0)
            ::close(end);
    int status = 0;
    ::waitpid(child, &status, 0);
    ran.status = WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
    return ran;
}

} // namespace washfast::test
