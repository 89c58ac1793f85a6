#include "core/quantity/value.h"

#include "core/quantity/words.h"

namespace washfast {

QString evidenceKey(Evidence evidence)
{
    switch (evidence) {
    case Evidence::Measured:
        return QStringLiteral("measured");
    case Evidence::Estimated:
        return QStringLiteral("estimated");
    case Evidence::Assumed:
        return QStringLiteral("assumed");
    }
    return {};
}

QString evidenceLabel(Evidence evidence)
{
    switch (evidence) {
    case Evidence::Measured:
        return QuantityWords::tr("measured");
    case Evidence::Estimated:
        return QuantityWords::tr("estimated");
    case Evidence::Assumed:
        return QuantityWords::tr("assumed");
    }
    return {};
}

std::optional<Evidence> evidenceFromKey(QStringView key)
{
    for (const auto evidence : { Evidence::Measured, Evidence::Estimated, Evidence::Assumed })
        if (key == evidenceKey(evidence))
            return evidence;
    return std::nullopt;
}

namespace {
template <typename T> std::optional<T> held(const Value& value)
{
    if (const auto* p = std::get_if<T>(&value))
        return *p;
    return std::nullopt;
}
} // namespace

std::optional<double> Known::number() const
{
    if (const auto* flag = std::get_if<bool>(&value))
        return *flag ? 1.0 : 0.0;
    return held<double>(value);
}

std::optional<bool> Known::yes() const
{
    return held<bool>(value);
}

std::optional<Instant> Known::time() const
{
    return held<Instant>(value);
}

std::optional<QString> Known::text() const
{
    return held<QString>(value);
}

std::optional<qint64> Known::link() const
{
    if (const auto* link = std::get_if<Link>(&value))
        return link->id;
    return std::nullopt;
}

} // namespace washfast
