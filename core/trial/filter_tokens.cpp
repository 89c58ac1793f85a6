#include "core/trial/filter_tokens.h"

#include "core/trial/words.h"

namespace washfast::filter {

namespace {

/// Typed by hand or put there by a text program; any of them ends what any of them began.
bool isQuote(QChar c)
{
    return c == u'"' || c == u'“' || c == u'”' || c == u'„';
}

struct Sign {
    QStringView text;
    Operator op;
};
constexpr std::array signs { // the longer first
    Sign { u"<=", Operator::LessOrEqual }, Sign { u">=", Operator::GreaterOrEqual }, Sign { u"!=", Operator::NotEqual },
    Sign { u"≤", Operator::LessOrEqual }, Sign { u"≥", Operator::GreaterOrEqual }, Sign { u"≠", Operator::NotEqual },
    Sign { u"<", Operator::Less }, Sign { u">", Operator::Greater }, Sign { u"=", Operator::Equal }
};

const Sign* signAt(QStringView text)
{
    for (const auto& sign : signs)
        if (text.startsWith(sign.text))
            return &sign;
    return nullptr;
}

/// Reads from the opening mark; a doubled plain mark inside stands for one.
std::optional<Token> quoted(QStringView text, qsizetype from)
{
    Token token { Token::Quoted, {}, int(from), 0, {} };
    for (qsizetype at = from + 1; at < text.size(); ++at) {
        if (!isQuote(text[at])) {
            token.text += text[at];
        } else if (text[at] == u'"' && at + 1 < text.size() && text[at + 1] == u'"') {
            token.text += text[at++];
        } else {
            token.length = int(at + 1 - from);
            return token;
        }
    }
    return std::nullopt;
}

} // namespace

std::variant<std::vector<Token>, FilterFault> cut(const QString& line)
{
    const QStringView text = line;
    std::vector<Token> tokens;
    for (qsizetype at = 0; at < text.size();) {
        const QChar c = text[at];
        if (c.isSpace()) {
            ++at;
        } else if (c == u'(' || c == u')') {
            tokens.push_back({ c == u'(' ? Token::Open : Token::Close, QString(c), int(at++), 1, {} });
        } else if (const auto* sign = signAt(text.mid(at))) {
            tokens.push_back({ Token::Comparison, sign->text.toString(), int(at), int(sign->text.size()), sign->op });
            at += sign->text.size();
        } else if (isQuote(c)) {
            const auto token = quoted(text, at);
            if (!token)
                return FilterFault { TrialWords::tr("This quotation mark is never closed."), int(at), 1 };
            at += token->length;
            if (token->text.trimmed().isEmpty())
                return FilterFault { TrialWords::tr(
                                         "There is nothing between these quotation marks. What was not recorded is "
                                         "found by “is unknown”."),
                    token->at, token->length };
            tokens.push_back(*token);
        } else {
            const qsizetype from = at;
            while (at < text.size() && !text[at].isSpace() && text[at] != u'(' && text[at] != u')' && !isQuote(text[at])
                && !signAt(text.mid(at)))
                ++at;
            tokens.push_back({ Token::Word, text.mid(from, at - from).toString(), int(from), int(at - from), {} });
        }
    }
    tokens.push_back({ Token::End, {}, int(text.size()), 0, {} });
    return tokens;
}

} // namespace washfast::filter
