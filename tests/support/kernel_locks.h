// What the system itself says of a notebook's locks, and what takes them away from a program that does not take care.
#pragma once

#include "core/store/file_locks.h"

#include <QByteArray>
#include <QFile>
#include <fcntl.h>
#include <stdexcept>
#include <unistd.h>

namespace washfast::test {

/// Entries of /proc/locks for a file, of whatever process; 0 too when it is not there.
inline int locksOn(const QString& path)
{
    const auto id = store::fileIdOf(path);
    QFile locks(QStringLiteral("/proc/locks"));
    if (!locks.open(QIODevice::ReadOnly))
        throw std::runtime_error("/proc/locks cannot be read");
    const auto ends = ':' + QByteArray::number(id ? qulonglong(id->inode) : 0) + ' ';
    int found = 0;
    for (const auto& line : locks.readAll().split('\n'))
        found += id && line.contains(ends) ? 1 : 0;
    return found;
}

/// Opens and closes a file, as a file dialog does that looks what kind it is.
inline void lookInto(const QString& path)
{
    const int file = ::open(QFile::encodeName(path).constData(), O_RDONLY | O_CLOEXEC);
    char byte = 0;
    if (file >= 0)
        (void)!::read(file, &byte, 1);
    ::close(file);
}

inline void lookIntoAll(const QString& notebook)
{
    for (const char* ending : { "", "-wal", "-shm" })
        lookInto(notebook + QString::fromLatin1(ending));
}

} // namespace washfast::test
