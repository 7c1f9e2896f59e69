/** The style that a machine can see; the order of the rooms is checked by test/architecture.test.ts. */
import js from "@eslint/js";
import tseslint from "typescript-eslint";

const LONGEST_FILE = 600;
/** About a screen; a table of facts or a long switch may need two. */
const LONGEST_FUNCTION = 100;

const EDITOR_API = { name: "vscode", message: "Only src/extension talks to the editor." };
const MATHJS = { name: "mathjs", message: "Only src/quantity talks to mathjs." };
const NODE = { group: ["node:*"], message: "Only src/cli and src/extension/node may use Node." };

const walls = (paths, patterns) => ({ "no-restricted-imports": ["error", { paths, patterns }] });

export default tseslint.config(
  { ignores: ["dist/", ".host/", ".artifacts/"] },
  { linterOptions: { reportUnusedDisableDirectives: "error" } },
  js.configs.recommended,
  {
    rules: {
      eqeqeq: "error",
      "max-lines": ["error", LONGEST_FILE],
      "object-shorthand": "error",
    },
  },
  {
    files: ["**/*.ts"],
    extends: [tseslint.configs.recommended],
    languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname } },
    rules: {
      "no-restricted-syntax": [
        "error",
        { selector: "ExportDefaultDeclaration", message: "Export by name, so that every importer uses the same one." },
      ],
      "@typescript-eslint/await-thenable": "error",
      "@typescript-eslint/consistent-type-imports": ["error", { fixStyle: "inline-type-imports" }],
      "@typescript-eslint/no-floating-promises": "error",
      "@typescript-eslint/no-misused-promises": "error",
      "@typescript-eslint/no-unnecessary-type-assertion": "error",
      "@typescript-eslint/no-unused-vars": ["error", { argsIgnorePattern: "^_" }],
    },
  },
  {
    files: ["src/**/*.ts"],
    rules: {
      "no-console": "error",
      "max-lines-per-function": ["error", { max: LONGEST_FUNCTION, skipComments: true }],
      ...walls([EDITOR_API, MATHJS], [NODE]),
    },
  },
  { files: ["src/quantity/**/*.ts"], rules: walls([EDITOR_API], [NODE]) },
  { files: ["src/cli/**/*.ts"], rules: { "no-console": "off", ...walls([EDITOR_API, MATHJS], []) } },
  { files: ["src/extension/**/*.ts"], rules: walls([MATHJS], [NODE]) },
  { files: ["src/extension/node/**/*.ts"], rules: walls([MATHJS], []) },
  {
    files: ["**/*.mjs", "**/*.cjs", "**/*.js"],
    languageOptions: {
      globals: { console: "readonly", process: "readonly", URL: "readonly", setInterval: "readonly" },
    },
  },
  {
    files: ["**/*.cjs", "**/*.js"],
    languageOptions: { sourceType: "commonjs", globals: { __dirname: "readonly" } },
  },
);
