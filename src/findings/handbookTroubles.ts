import type { Wording } from "./finding";

/** `use "our-leds.calcs.md" as led`: the note stands where the chapter would. */
export const handbookShadowed: Wording<"handbook.shadowed"> = {
  severity: "information",
  reference:
    "A note in use has the name of a chapter of the handbook and stands in its place: members are looked up in the note alone. Where both are wanted, use the note under another name.",
  message: ({ chapter }) =>
    `In this note \`${chapter}\` is this file, not the chapter \`${chapter}\` of the handbook. To have both, use the file under another name.`,
};

/** The chapter is listed, and its text cannot be had. */
export const handbookUnreadable: Wording<"handbook.unreadable"> = {
  severity: "error",
  reference: "A chapter of the handbook is part of the installation and cannot be read. Install Copperbook anew.",
  message: ({ chapter, detail }) =>
    `The chapter \`${chapter}\` of the handbook cannot be read: ${detail}. It is part of the installation; install Copperbook anew.`,
};
