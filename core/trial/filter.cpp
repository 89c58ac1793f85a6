#include "core/trial/filter.h"

#include "core/quantity/number_text.h"
#include "core/trial/filter_compare.h"
#include "core/trial/words.h"

#include <QRegularExpression>
#include <algorithm>

namespace washfast {

using filter::NodePtr;
using filter::Token;

namespace {

constexpr int longestLine = 4000; // characters
constexpr int deepest = 100; // parentheses and nots within one another

} // namespace

Error FilterFault::error() const
{
    return { Trouble::BadInput, says, TrialWords::tr("Filter, character %1").arg(at + 1) };
}

/// Reads by going down: any (or) of all (and) of nots of single tests. A fault ends it by an exception that stays in
/// here.
class FilterReading {
public:
    FilterReading(std::vector<Token> tokens, const Catalogue& catalogue)
        : tokens_(std::move(tokens))
        , catalogue_(catalogue)
    {
    }

    ParsedFilter read()
    {
        ParsedFilter parsed;
        if (here().kind == Token::End)
            return parsed;
        try {
            NodePtr root = any();
            if (here().kind == Token::Close)
                fail(here(), TrialWords::tr("This parenthesis closes none that was opened."));
            parsed.filter.root_ = std::move(root);
        } catch (const FilterFault& fault) {
            parsed.fault = fault;
        }
        return parsed;
    }

private:
    [[nodiscard]] const Token& here(size_t ahead = 0) const
    {
        return tokens_[std::min(at_ + ahead, tokens_.size() - 1)];
    }

    [[noreturn]] static void fail(const Token& token, const QString& says)
    {
        throw FilterFault { says, token.at, token.length };
    }

    [[nodiscard]] bool startsTest() const
    {
        const auto& token = here();
        return token.kind != Token::End && token.kind != Token::Close && !token.is(u"or");
    }

    void deeper()
    {
        if (++depth_ > deepest)
            fail(here(), TrialWords::tr("This is nested too deeply to be read."));
    }

    NodePtr any()
    {
        std::vector<NodePtr> parts;
        parts.push_back(all());
        while (here().is(u"or")) {
            ++at_;
            parts.push_back(all());
        }
        return filter::anyOf(std::move(parts));
    }

    NodePtr all()
    {
        std::vector<NodePtr> parts;
        parts.push_back(single());
        while (startsTest()) {
            if (here().is(u"and"))
                ++at_;
            parts.push_back(single());
        }
        return filter::allOf(std::move(parts));
    }

    NodePtr single()
    {
        const Token& token = here();
        if (token.kind == Token::Word && followedByOperator())
            return comparison();
        if (token.is(u"not")) {
            deeper();
            ++at_;
            NodePtr part = filter::notOf(single());
            --depth_;
            return part;
        }
        if (token.kind == Token::Open)
            return inParentheses();
        if (token.kind == Token::Comparison || (token.kind == Token::Quoted && here(1).kind == Token::Comparison))
            fail(token,
                token.kind == Token::Quoted
                    ? TrialWords::tr("The name of a field stands without quotation marks.")
                    : TrialWords::tr("The name of a field must stand before “%1”.").arg(token.text));
        if (token.kind == Token::End || token.kind == Token::Close || token.is(u"and") || token.is(u"or"))
            failMissing();
        ++at_;
        return filter::word(token.text);
    }

    /// Where a test should stand and none does.
    [[noreturn]] void failMissing() const
    {
        const Token* before = at_ > 0 ? &tokens_[at_ - 1] : nullptr;
        if (here().kind == Token::Close && before && before->kind == Token::Open)
            throw FilterFault { TrialWords::tr("There is nothing between these parentheses."), before->at,
                here().at + here().length - before->at };
        if (before)
            fail(here(), TrialWords::tr("Something is missing after “%1”.").arg(before->text));
        if (here().kind == Token::Close)
            fail(here(), TrialWords::tr("This parenthesis closes none that was opened."));
        fail(here(), TrialWords::tr("Something is missing before “%1”.").arg(here().text));
    }

    NodePtr inParentheses()
    {
        const Token open = here();
        deeper();
        ++at_;
        NodePtr inner = any();
        if (here().kind != Token::Close)
            fail(open, TrialWords::tr("This parenthesis is never closed."));
        ++at_;
        --depth_;
        return inner;
    }

    // ---- Comparisons

    [[nodiscard]] bool followedByOperator() const
    {
        const auto& next = here(1);
        if (next.kind == Token::Comparison || next.is(u"has") || next.is(u"from"))
            return true;
        return next.is(u"is") && (here(2).is(u"known") || here(2).is(u"unknown"));
    }

    NodePtr comparison()
    {
        const Token name = here();
        const Token op = here(1);
        const int index = fieldOf(name, op);
        const Field& field = catalogue_.printFields()[size_t(index)];
        at_ += 2;
        if (op.is(u"is")) {
            const bool known = here().is(u"known");
            ++at_;
            return filter::isKnown(index, known);
        }
        const Token value = takeValue(field, op);
        if (op.is(u"from")) {
            if (!here().is(u"to"))
                fail(here(), TrialWords::tr("“from” needs a “to”: %1 from 2 to 5").arg(name.text));
            const Token to = here();
            ++at_;
            const Token second = takeValue(field, to);
            return accept(filter::compareRange(field, index, value.text, second.text), op, value, second);
        }
        const auto which = op.kind == Token::Comparison ? op.op : filter::Operator::Has;
        return accept(filter::compare(field, index, which, value.text), op, value, value);
    }

    static NodePtr accept(filter::Comparison made, const Token& op, const Token& value, const Token& second)
    {
        using enum filter::Comparison::Blame;
        if (made.blame != Nothing)
            fail(made.blame == TheOperator ? op : made.blame == TheValue ? value : second, made.says);
        return std::move(made.test);
    }

    [[nodiscard]] int fieldOf(const Token& name, const Token& op) const
    {
        const QString wanted = name.text.toLower();
        if (const int exact = catalogue_.printField(wanted); exact >= 0)
            return exact;
        std::vector<int> fits;
        const auto& fields = catalogue_.printFields();
        for (size_t i = 0; i < fields.size(); ++i)
            if (fields[i].key.startsWith(wanted))
                fits.push_back(int(i));
        if (fits.size() == 1)
            return fits.front();
        if (fits.empty())
            fail(name,
                op.kind == Token::Comparison
                    ? TrialWords::tr("There is no field “%1”.").arg(name.text)
                    : TrialWords::tr("There is no field “%1”. To look for the word “%2”, put it in quotation marks.")
                          .arg(name.text, op.text));
        constexpr size_t shown = 8;
        QStringList keys;
        for (size_t i = 0; i < fits.size() && i < shown; ++i)
            keys << fields[size_t(fits[i])].key;
        const int all = int(fits.size());
        const auto says = fits.size() > shown
            ? TrialWords::tr("“%1” is the beginning of %n fields: %2 and more.", nullptr, all)
            : TrialWords::tr("“%1” is the beginning of %n fields: %2.", nullptr, all);
        fail(name, says.arg(name.text, keys.join(QStringLiteral(", "))));
    }

    /// The value after an operator or `to`, with a clock time behind a day and a unit behind a number.
    Token takeValue(const Field& field, const Token& after)
    {
        Token value = here();
        const bool keyword = value.is(u"and") || value.is(u"or") || value.is(u"not");
        if ((value.kind != Token::Word && value.kind != Token::Quoted) || keyword)
            fail(value, TrialWords::tr("A value must stand after “%1”.").arg(after.text));
        ++at_;
        if (value.kind == Token::Word && here().kind == Token::Word && belongs(field, value, here())) {
            value.text += QLatin1Char(' ') + here().text;
            value.length = here().at + here().length - value.at;
            ++at_;
        }
        return value;
    }

    [[nodiscard]] static bool belongs(const Field& field, const Token& value, const Token& next)
    {
        static const QRegularExpression clock(QStringLiteral("^[0-9]{1,2}:[0-9]{2}"));
        if (field.kind == Kind::Time)
            return !value.text.contains(QLatin1Char(':')) && clock.match(next.text).hasMatch();
        return field.kind == Kind::Number && !field.unit.isEmpty()
            && (next.text == field.unit || convert(1.0, next.text, field.unit));
    }

    std::vector<Token> tokens_;
    const Catalogue& catalogue_;
    size_t at_ = 0;
    int depth_ = 0;
};

ParsedFilter parseFilter(const QString& text, const Catalogue& catalogue)
{
    if (text.size() > longestLine)
        return { {},
            FilterFault { TrialWords::tr("A filter can have %1 characters at most.").arg(longestLine), longestLine,
                int(text.size()) - longestLine } };
    auto cut = filter::cut(text);
    if (auto* fault = std::get_if<FilterFault>(&cut))
        return { {}, *fault };
    return FilterReading(std::get<std::vector<Token>>(std::move(cut)), catalogue).read();
}

std::vector<char> Filter::matches(const PrintColumns& columns) const
{
    const int rows = columns.notebook().prints().rows();
    std::vector<char> shown(size_t(rows), 1);
    if (!root_ || rows == 0)
        return shown;
    std::vector<filter::Truth> truths(size_t(rows), filter::Truth::Unknown);
    root_->evaluate(columns, { 0, rows }, truths.data());
    std::transform(truths.begin(), truths.end(), shown.begin(),
        [](filter::Truth truth) { return truth == filter::Truth::Yes ? char(1) : char(0); });
    return shown;
}

bool Filter::matchesOne(const PrintColumns& columns, int row) const
{
    if (!root_)
        return true;
    filter::Truth truth = filter::Truth::Unknown;
    root_->evaluate(columns, { row, 1 }, &truth);
    return truth == filter::Truth::Yes;
}

} // namespace washfast
