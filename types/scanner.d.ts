// Reads bar codes and QR codes, where the browser can (Shape Detection API). No page loads this.

declare class BarcodeDetector {
  detect(source: HTMLVideoElement): Promise<{ rawValue: string }[]>;
}
