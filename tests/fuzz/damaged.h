// Damages a good file: changes some of its bytes, cuts it, or repeats or leaves out a part of it.
#pragma once

#include <QByteArray>
#include <random>

namespace washfast::test {

inline QByteArray damaged(QByteArray bytes, std::mt19937& draw)
{
    const auto below
        = [&](qsizetype limit) { return limit <= 0 ? qsizetype(0) : qsizetype(draw() % static_cast<unsigned>(limit)); };
    for (auto changes = 1 + below(12); changes > 0 && !bytes.isEmpty(); --changes)
        switch (below(5)) {
        case 0:
            bytes[below(bytes.size())] = static_cast<char>(draw());
            break;
        case 1:
            bytes[below(bytes.size())] = "0123456789-.eE[]{},:\"\xFF\x00"[below(22)];
            break;
        case 2:
            bytes.truncate(below(bytes.size() + 1));
            break;
        case 3:
            bytes.insert(below(bytes.size()), bytes.mid(below(bytes.size()), below(64)));
            break;
        default:
            bytes.remove(below(bytes.size()), below(16));
            break;
        }
    return bytes;
}

} // namespace washfast::test
