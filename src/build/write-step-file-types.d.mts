export function stepFileTypes(rootFolder: string): Promise<string>
