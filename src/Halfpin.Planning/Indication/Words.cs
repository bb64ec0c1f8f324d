using System.Text;

namespace Halfpin.Planning.Indication;

/// <summary>Choices of a record in plain words.</summary>
internal static class Words
{
    /// <summary>A choice as words: InExtremis becomes "in extremis"; a grade stays as it is.</summary>
    public static string Of(Enum choice)
    {
        string name = choice.ToString();
        if (choice is Domain.Cases.OpenFractureGrade)
        {
            return name;
        }

        StringBuilder words = new();
        foreach (char letter in name)
        {
            if (words.Length > 0 && (char.IsUpper(letter) || char.IsDigit(letter)))
            {
                words.Append(' ');
            }

            words.Append(char.ToLowerInvariant(letter));
        }

        return words.ToString();
    }
}
