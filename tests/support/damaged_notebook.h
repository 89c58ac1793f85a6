// Notebooks with damaged bytes, the same for the same seed, and SQLite itself as the judge of them.
#pragma once

#include "tests/support/outside.h"

#include <QByteArray>
#include <QFile>
#include <random>

namespace washfast::test {

/// SQLite's page size (bytes 16 and 17 of the header, sqlite.org/fileformat2.html).
inline qsizetype pageSizeOf(const QByteArray& file)
{
    return (qsizetype(quint8(file[16])) << 8) | quint8(file[17]);
}

/// One of seven kinds of damage. The first 100 bytes stay, or the file would be no notebook at all.
inline QByteArray damagedNotebook(QByteArray bytes, unsigned seed)
{
    std::mt19937 random(seed);
    const auto page = pageSizeOf(bytes);
    const auto pages = bytes.size() / page;
    const auto below = [&](qsizetype limit) { return qsizetype(random() % quint64(limit)); };
    const auto anyPage = [&] { return (1 + below(pages - 1)) * page; }; // but the first
    switch (seed % 7) {
    case 0: // some bits anywhere
        for (auto flips = 1 + below(40); flips > 0; --flips) {
            auto& byte = bytes[100 + below(bytes.size() - 100)];
            byte = char(byte ^ char(1 << below(8)));
        }
        break;
    case 1: // the head of a page, where SQLite keeps where its cells are
        for (auto at = anyPage(), changes = 1 + below(12); changes > 0; --changes)
            bytes[at + below(48)] = char(random());
        break;
    case 2: { // a page of zeros: a block that never reached the disk
        const auto at = anyPage();
        bytes.replace(at, page, QByteArray(page, '\0'));
        break;
    }
    case 3: { // a page in the place of another: an old version, or a block written to the wrong place
        const auto from = anyPage();
        bytes.replace(anyPage(), page, QByteArray(bytes.mid(from, page)));
        break;
    }
    case 4: // pages are missing at the end
        bytes.truncate(bytes.size() - page * (1 + below(pages / 2)));
        break;
    case 5: { // a page of rubbish
        const auto at = anyPage();
        for (qsizetype i = 0; i < page; ++i)
            bytes[at + i] = char(random());
        break;
    }
    default: { // half a sector of rubbish
        const auto at = 100 + below(bytes.size() - 400);
        for (qsizetype i = 0; i < 256; ++i)
            bytes[at + i] = char(random());
        break;
    }
    }
    return bytes;
}

/// "ok", or what a bare connection's integrity check finds in these bytes. Writes them to `place` first.
inline QString sqliteSays(const QByteArray& bytes, const QString& place)
{
    {
        QFile file(place);
        if (!file.open(QIODevice::WriteOnly) || file.write(bytes) != bytes.size())
            throw std::runtime_error("cannot write " + place.toStdString());
    }
    sqlite3* handle = nullptr;
    const auto name = "file:" + place.toUtf8() + "?immutable=1";
    sqlite3_open_v2(name.constData(), &handle, SQLITE_OPEN_READONLY | SQLITE_OPEN_URI, nullptr);
    QString says;
    const auto take = [](void* to, int, char** values, char**) {
        auto& text = *static_cast<QString*>(to);
        if (text.isEmpty())
            text = QString::fromUtf8(values[0]);
        return 0;
    };
    if (sqlite3_exec(handle, "PRAGMA integrity_check", take, &says, nullptr) != SQLITE_OK)
        says = QString::fromUtf8(sqlite3_errmsg(handle));
    sqlite3_close(handle);
    return says;
}

} // namespace washfast::test
