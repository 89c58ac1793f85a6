#include "core/trial/filter_nodes.h"

#include <QStringMatcher>
#include <algorithm>
#include <cmath>

namespace washfast::filter {

namespace {

constexpr Truth truthOf(bool yes)
{
    return yes ? Truth::Yes : Truth::No;
}

/// Runs `test(row)` over the rows whose number is known. Templates, so that the test is worked into the loop.
template <typename Test> void forKnown(const PrintColumn& column, Rows rows, Truth* out, Test test)
{
    for (int i = 0; i < rows.count; ++i) {
        const auto row = size_t(rows.first + i);
        out[i] = std::isnan(column.numbers[row]) ? Truth::Unknown : truthOf(test(row));
    }
}

class Joined final : public Node {
public:
    Joined(std::vector<NodePtr> parts, bool all)
        : parts_(std::move(parts))
        , all_(all)
    {
    }
    void evaluate(const PrintColumns& columns, Rows rows, Truth* out) const override
    {
        parts_.front()->evaluate(columns, rows, out);
        std::vector<Truth> other(size_t(rows.count));
        for (size_t part = 1; part < parts_.size(); ++part) {
            parts_[part]->evaluate(columns, rows, other.data());
            if (all_)
                std::transform(
                    out, out + rows.count, other.data(), out, [](Truth a, Truth b) { return std::min(a, b); });
            else
                std::transform(
                    out, out + rows.count, other.data(), out, [](Truth a, Truth b) { return std::max(a, b); });
        }
    }

private:
    std::vector<NodePtr> parts_;
    bool all_;
};

class Not final : public Node {
public:
    explicit Not(NodePtr part)
        : part_(std::move(part))
    {
    }
    void evaluate(const PrintColumns& columns, Rows rows, Truth* out) const override
    {
        part_->evaluate(columns, rows, out);
        std::transform(out, out + rows.count, out, [](Truth t) { return Truth(int(Truth::Yes) - int(t)); });
    }

private:
    NodePtr part_;
};

class Word final : public Node {
public:
    explicit Word(const QString& text)
        : text_(text.toLower())
    {
    }
    void evaluate(const PrintColumns& columns, Rows rows, Truth* out) const override
    {
        const QStringMatcher matcher(text_, Qt::CaseSensitive); // both are in lower case
        const auto& words = columns.words();
        for (int i = 0; i < rows.count; ++i)
            out[i] = truthOf(matcher.indexIn(words[size_t(rows.first + i)]) >= 0);
    }

private:
    QString text_;
};

class KnownTest final : public Node {
public:
    KnownTest(int field, bool known)
        : field_(field)
        , known_(known)
    {
    }
    void evaluate(const PrintColumns& columns, Rows rows, Truth* out) const override
    {
        const auto& numbers = columns.column(field_).numbers;
        for (int i = 0; i < rows.count; ++i)
            out[i] = truthOf(std::isnan(numbers[size_t(rows.first + i)]) != known_);
    }

private:
    int field_;
    bool known_;
};

class Within final : public Node {
public:
    Within(int field, Interval interval, bool inside)
        : field_(field)
        , interval_(interval)
        , inside_(inside)
    {
    }
    void evaluate(const PrintColumns& columns, Rows rows, Truth* out) const override
    {
        const auto& column = columns.column(field_);
        const auto [from, to] = interval_;
        forKnown(column, rows, out, [&, low = from, high = to, inside = inside_](size_t row) {
            const double value = column.numbers[row];
            return (value >= low && value <= high) == inside;
        });
    }

private:
    int field_;
    Interval interval_;
    bool inside_;
};

class OneOf final : public Node {
public:
    OneOf(int field, std::vector<char> wanted)
        : field_(field)
        , wanted_(std::move(wanted))
    {
    }
    void evaluate(const PrintColumns& columns, Rows rows, Truth* out) const override
    {
        const auto& column = columns.column(field_);
        forKnown(column, rows, out, [&](size_t row) {
            const auto position = size_t(column.numbers[row]);
            return position < wanted_.size() && wanted_[position] != 0;
        });
    }

private:
    int field_;
    std::vector<char> wanted_;
};

/// A test of a text; there are few different sets, so that each is looked at once.
class SetTest : public Node {
public:
    explicit SetTest(int field)
        : field_(field)
    {
    }
    void evaluate(const PrintColumns& columns, Rows rows, Truth* out) const override
    {
        const auto& column = columns.column(field_);
        const auto& field = columns.notebook().catalogue().printFields()[size_t(field_)];
        QHash<QString, bool> seen;
        forKnown(column, rows, out, [&](size_t row) {
            const QString& text = column.texts[row];
            auto it = seen.constFind(text);
            if (it == seen.constEnd())
                it = seen.insert(text, fits(field, splitSet(text)));
            return *it;
        });
    }

protected:
    [[nodiscard]] virtual bool fits(const Field& field, const QStringList& keys) const = 0;

private:
    int field_;
};

class HoldsAny final : public SetTest {
public:
    HoldsAny(int field, QStringList keys)
        : SetTest(field)
        , keys_(std::move(keys))
    {
    }

protected:
    [[nodiscard]] bool fits(const Field&, const QStringList& keys) const override
    {
        return std::any_of(keys.begin(), keys.end(), [&](const QString& key) { return keys_.contains(key); });
    }

private:
    QStringList keys_;
};

class IsSet final : public SetTest {
public:
    IsSet(int field, QString set, bool equal)
        : SetTest(field)
        , set_(std::move(set))
        , equal_(equal)
    {
    }

protected:
    [[nodiscard]] bool fits(const Field& field, const QStringList& keys) const override
    {
        return (joinSet(field, keys) == set_) == equal_;
    }

private:
    QString set_;
    bool equal_;
};

class Contains final : public Node {
public:
    Contains(int field, const QString& text)
        : field_(field)
        , text_(text)
    {
    }
    void evaluate(const PrintColumns& columns, Rows rows, Truth* out) const override
    {
        const QStringMatcher matcher(text_, Qt::CaseInsensitive);
        const auto& column = columns.column(field_);
        forKnown(column, rows, out, [&](size_t row) { return matcher.indexIn(column.texts[row]) >= 0; });
    }

private:
    int field_;
    QString text_;
};

class IsText final : public Node {
public:
    IsText(int field, const QString& text, bool equal)
        : field_(field)
        , text_(text.trimmed())
        , equal_(equal)
    {
    }
    void evaluate(const PrintColumns& columns, Rows rows, Truth* out) const override
    {
        const auto& column = columns.column(field_);
        forKnown(column, rows, out, [&](size_t row) {
            return (QStringView(column.texts[row]).trimmed().compare(text_, Qt::CaseInsensitive) == 0) == equal_;
        });
    }

private:
    int field_;
    QString text_;
    bool equal_;
};

/// Milliseconds by which the record's clock is ahead of UTC; the columns hold only the moment.
qint64 clockAhead(const PrintColumns& columns, int row, int field)
{
    const auto time = columns.reader().get(row, field).time();
    return time ? qint64(time->offset_s) * 1000 : 0;
}

class Between final : public Node {
public:
    Between(int field, std::optional<Edge> from, std::optional<Edge> to, bool inside)
        : field_(field)
        , from_(from)
        , to_(to)
        , inside_(inside)
    {
    }
    void evaluate(const PrintColumns& columns, Rows rows, Truth* out) const override
    {
        const auto& column = columns.column(field_);
        forKnown(column, rows, out, [&](size_t row) {
            const auto ms = qint64(column.numbers[row]);
            const bool after = !from_ || distance(columns, row, ms, *from_) >= 0;
            return (after && (!to_ || distance(columns, row, ms, *to_) <= 0)) == inside_;
        });
    }

private:
    /// How far the moment is behind the edge. The record's clock is asked only where it matters: none is more than 14
    /// hours off.
    [[nodiscard]] qint64 distance(const PrintColumns& columns, size_t row, qint64 ms, const Edge& edge) const
    {
        constexpr qint64 farthest = 14 * 3600 * 1000;
        const qint64 by_utc = ms - edge.ms;
        if (!edge.record_clock || std::abs(by_utc) > farthest)
            return by_utc;
        return by_utc + clockAhead(columns, int(row), field_);
    }

    int field_;
    std::optional<Edge> from_, to_;
    bool inside_;
};

class DayTimeWithin final : public Node {
public:
    DayTimeWithin(int field, Interval interval, bool inside)
        : field_(field)
        , interval_(interval)
        , inside_(inside)
    {
    }
    void evaluate(const PrintColumns& columns, Rows rows, Truth* out) const override
    {
        constexpr qint64 day = 24 * 3600 * 1000;
        const auto& column = columns.column(field_);
        forKnown(column, rows, out, [&](size_t row) {
            const qint64 local = qint64(column.numbers[row]) + clockAhead(columns, int(row), field_);
            const auto of_day = double((local % day + day) % day);
            return (of_day >= interval_.from && of_day <= interval_.to) == inside_;
        });
    }

private:
    int field_;
    Interval interval_;
    bool inside_;
};

NodePtr joined(std::vector<NodePtr> parts, bool all)
{
    return parts.size() == 1 ? std::move(parts.front()) : std::make_unique<Joined>(std::move(parts), all);
}

} // namespace

NodePtr allOf(std::vector<NodePtr> parts)
{
    return joined(std::move(parts), true);
}

NodePtr anyOf(std::vector<NodePtr> parts)
{
    return joined(std::move(parts), false);
}

NodePtr notOf(NodePtr part)
{
    return std::make_unique<Not>(std::move(part));
}

NodePtr word(const QString& text)
{
    return std::make_unique<Word>(text);
}

NodePtr isKnown(int field, bool known)
{
    return std::make_unique<KnownTest>(field, known);
}

NodePtr within(int field, Interval interval, bool inside)
{
    return std::make_unique<Within>(field, interval, inside);
}

NodePtr oneOf(int field, std::vector<char> wanted)
{
    return std::make_unique<OneOf>(field, std::move(wanted));
}

NodePtr holdsAny(int field, const QStringList& keys)
{
    return std::make_unique<HoldsAny>(field, keys);
}

NodePtr isSet(int field, const QString& set, bool equal)
{
    return std::make_unique<IsSet>(field, set, equal);
}

NodePtr contains(int field, const QString& text)
{
    return std::make_unique<Contains>(field, text);
}

NodePtr isText(int field, const QString& text, bool equal)
{
    return std::make_unique<IsText>(field, text, equal);
}

NodePtr between(int field, std::optional<Edge> from, std::optional<Edge> to, bool inside)
{
    return std::make_unique<Between>(field, from, to, inside);
}

NodePtr dayTimeWithin(int field, Interval ms_of_day, bool inside)
{
    return std::make_unique<DayTimeWithin>(field, ms_of_day, inside);
}

} // namespace washfast::filter
