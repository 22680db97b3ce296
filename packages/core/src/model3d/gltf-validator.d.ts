/** What is used of the validator, which brings no types of its own. */
declare module "gltf-validator" {
  interface Report {
    readonly mimeType: string;
    readonly info: { readonly drawCallCount: number };
    readonly issues: {
      readonly numErrors: number;
      readonly numWarnings: number;
      readonly messages: readonly { readonly code: string; readonly severity: number; readonly pointer?: string }[];
    };
  }
  export function validateBytes(
    data: Uint8Array,
    options?: { readonly maxIssues?: number; readonly writeTimestamp?: boolean },
  ): Promise<Report>;
}
