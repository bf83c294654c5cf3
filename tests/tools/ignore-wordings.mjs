// A plugin of the mutation tester: it leaves sentences alone. A text with a blank in it is for people; its words are
// recorded in packages/calculators/src/wordings, and a changed word must neither raise nor lower the mutation score.
// Names, codes, units and numbers have no blank and are mutated.
const textOf = (node) => {
  if (node.type === 'StringLiteral') return node.value;
  if (node.type === 'TemplateLiteral') return node.quasis.map(({ value }) => value.cooked).join('');
  return '';
};

export const strykerPlugins = [
  {
    kind: 'Ignore',
    name: 'wordings',
    value: {
      shouldIgnore: ({ node }) => (textOf(node).includes(' ') ? 'a sentence for people' : undefined),
    },
  },
];
