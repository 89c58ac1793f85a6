// Runs a piece of a test in a process of its own, so that it can give up its rights, mount a small disk or hit a limit
// without harming the rest.
//
//     const auto said = inChild([&] { giveUpRights(); return attempt(); });
#pragma once

#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <functional>
#include <grp.h>
#include <sched.h>
#include <stdexcept>
#include <string>
#include <sys/mount.h>
#include <sys/wait.h>
#include <unistd.h>

namespace washfast::test {

/// What `work` returns, or "threw: ..." when it throws, or how the process ended.
inline std::string inChild(const std::function<std::string()>& work)
{
    int ends[2];
    if (pipe(ends) != 0)
        throw std::runtime_error("no pipe");
    const pid_t child = fork();
    if (child < 0)
        throw std::runtime_error("no child process");
    if (child == 0) {
        close(ends[0]);
        std::string said;
        try {
            said = work();
        } catch (const std::exception& wrong) {
            said = std::string("threw: ") + wrong.what();
        }
        const auto written = write(ends[1], said.data(), said.size());
        _exit(written == ssize_t(said.size()) ? 0 : 1);
    }
    close(ends[1]);
    std::string said;
    char buffer[4096];
    for (ssize_t got = 0; (got = read(ends[0], buffer, sizeof buffer)) > 0;)
        said.append(buffer, size_t(got));
    close(ends[0]);
    int status = 0;
    waitpid(child, &status, 0);
    if (!WIFEXITED(status))
        said += " [ended by signal " + std::to_string(WTERMSIG(status)) + "]";
    return said;
}

/// From now on this process is nobody, if it was root: root may write everywhere.
inline void giveUpRights()
{
    constexpr uid_t nobody = 65534;
    if (geteuid() != 0)
        return;
    if (setgroups(0, nullptr) != 0 || setgid(nobody) != 0 || setuid(nobody) != 0)
        throw std::runtime_error(std::string("rights not given up: ") + std::strerror(errno));
}

/// Puts an empty disk of `bytes` at `folder`, seen by this process only. False when this is not allowed here.
inline bool mountSmallDisk(const std::string& folder, size_t bytes)
{
    if (unshare(CLONE_NEWNS) != 0 || mount("none", "/", nullptr, MS_REC | MS_PRIVATE, nullptr) != 0)
        return false;
    const auto size = "size=" + std::to_string(bytes);
    return mount("tmpfs", folder.c_str(), "tmpfs", 0, size.c_str()) == 0;
}

/// The same folder, but nobody can write to it, root neither. False when this is not allowed here.
inline bool mountReadOnly(const std::string& folder)
{
    if (unshare(CLONE_NEWNS) != 0 || mount("none", "/", nullptr, MS_REC | MS_PRIVATE, nullptr) != 0)
        return false;
    return mount(folder.c_str(), folder.c_str(), nullptr, MS_BIND, nullptr) == 0
        && mount("none", folder.c_str(), nullptr, MS_REMOUNT | MS_BIND | MS_RDONLY, nullptr) == 0;
}

} // namespace washfast::test
